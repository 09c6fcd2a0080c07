// What is the same for everybody who asks: worked out once for all of them, and refused to nobody.

import type { Run, Task } from '../kit/task.ts'
import type { Threads } from './compute.ts'

/**
 * For the pages that everybody works with. The latest question of each task and its answer are kept: who asks the same shares it,
 * while it is worked out and later. As these questions change only with the record, few wait for each other. `threads` are to be
 * apart from those of single people, so that nobody's heavy questions stand before them.
 */
export function sharedBy(threads: Threads): Run {
  const latest = new Map<string, { asked: string; answer: Promise<unknown> }>()
  return async <In, Out>(task: Task<In, Out>, input: In) => {
    const asked = JSON.stringify(input)
    const before = latest.get(task.name)
    if (before?.asked === asked) return before.answer as Promise<Out> // kept under its name, so by this very task
    const entry = { asked, answer: threads.run(task, input, staying) }
    latest.set(task.name, entry)
    try {
      return await entry.answer
    } catch (error) {
      if (latest.get(task.name) === entry) latest.delete(task.name)
      throw error
    }
  }
}

/** Others wait for it too when one browser has gone. */
const staying = new AbortController().signal
