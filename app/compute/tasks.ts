// Every task that a worker thread can be asked for.

import { adviceTask } from '../advice/work-out.ts'
import { compareTask, proveTask } from '../advisor/tasks.ts'
import { rankingTask } from '../history/comparison-sums.ts'
import { coverageTask } from '../history/coverage-sums.ts'
import { spoolTask } from '../history/replay/remainders.ts'
import { sheetTask } from '../history/replay/sheet.ts'
import { signalTask } from '../history/signal-sums.ts'
import { summaryTask } from '../history/summary.ts'
import { pastTask } from '../history/supplier-page-sums.ts'
import type { Task } from '../kit/task.ts'
import { weakPlansTask } from '../lots/rules/weak-plans.ts'

const all: Task<unknown, unknown>[] = [
  compareTask,
  proveTask,
  adviceTask,
  sheetTask,
  spoolTask,
  rankingTask,
  pastTask,
  summaryTask,
  coverageTask,
  signalTask,
  weakPlansTask,
]

export const tasks: ReadonlyMap<string, Task<unknown, unknown>> = new Map(all.map((task) => [task.name, task]))
