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

/** About 10 ms warm: a stage of a plan, or a thousand cords of a lot, takes up to a tenth of a millisecond in a sum over lots. */
const mostHere = 100

/** Where a sum of so many pieces is done: a small one here, as handing it over would take longer. */
export function runOf(pieces: number, run: Run): Run {
  return pieces > mostHere ? run : runHere
}
