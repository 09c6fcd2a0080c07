// A computation that may take long: pure, known by its name, plain facts in and plain facts out, so that any thread can do it.

export type Task<In, Out> = {
  /** the same in every thread; tasks.ts lists them all */
  readonly name: string
  work(input: In): Out
}

/** Has a task done, wherever that may be. */
export type Run = <In, Out>(task: Task<In, Out>, input: In) => Promise<Out>

/** In this very thread, for what takes a few milliseconds. */
export const runHere: Run = async (task, input) => task.work(input)
