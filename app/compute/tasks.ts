// Every task that a worker thread can be asked for.

import { adviceTask } from '../advice/work-out.ts'
import { compareTask, proveTask } from '../advisor/tasks.ts'
import { calibrationTask } from '../lots/calibration-sums.ts'
import { weakPlansTask } from '../lots/weak-plans.ts'
import { sheetTask } from '../reports/percentage/sheet.ts'
import { pastTask } from '../suppliers/past-sums.ts'
import { replayTask } from '../suppliers/replayed.ts'
import { sideBySideTask } from '../suppliers/side-by-side.ts'
import { signalTask } from '../suppliers/signal-sums.ts'
import { standingTask } from '../suppliers/standing.ts'
import type { Task } from './task.ts'

const all: Task<unknown, unknown>[] = [
  compareTask,
  proveTask,
  adviceTask,
  sheetTask,
  sideBySideTask,
  pastTask,
  replayTask,
  standingTask,
  calibrationTask,
  signalTask,
  weakPlansTask,
]

export const tasks: ReadonlyMap<string, Task<unknown, unknown>> = new Map(all.map((task) => [task.name, task]))
