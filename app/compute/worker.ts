// What runs in a worker thread: a task by its name. No database, no settings, nothing but the question.
import { tasks } from './tasks.ts'

/** Called by the pool, with what `openThreads` sent: an input that the task's own type has been held against there. */
export function work({ name, input }: { name: string; input: unknown }): unknown {
  const task = tasks.get(name)
  if (!task) throw new Error(`There is no task ${name}`)
  return task.work(input)
}
