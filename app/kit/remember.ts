// Answers of pure tasks that are asked again and again with the same facts: remembered, a few of each task.
import type { Run, Task } from './task.ts'

const answersKept = 8

/** Has the task done where its answer is not among the latest; equal inputs are those that read alike as JSON. */
export function rememberedRun<In, Out>(): (run: Run, task: Task<In, Out>, input: In) => Promise<Out> {
  const answers = new Map<string, { answer: Out }>()
  return async (run, task, input) => {
    const key = JSON.stringify(input)
    const before = answers.get(key)
    if (before) return before.answer
    // not its promise: who asks first may leave, and with them the computation
    const answer = await run(task, input)
    answers.set(key, { answer })
    for (const oldest of answers.keys()) {
      if (answers.size <= answersKept) break
      answers.delete(oldest)
    }
    return answer
  }
}
