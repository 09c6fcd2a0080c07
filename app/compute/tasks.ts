// Every task that a worker thread can be asked for.

import { adviceTask } from '../advice/work-out.ts'
import { compareTask, proveTask } from '../advisor/tasks.ts'
import { sheetTask } from '../reports/percentage/sheet.ts'
import { sideBySideTask } from '../suppliers/side-by-side.ts'
import type { Task } from './task.ts'

const all: Task<unknown, unknown>[] = [compareTask, proveTask, adviceTask, sheetTask, sideBySideTask]

export const tasks: ReadonlyMap<string, Task<unknown, unknown>> = new Map(all.map((task) => [task.name, task]))
