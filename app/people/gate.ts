// Slow work a little at a time: what comes beyond it waits, and what comes beyond that is sent away for a moment.
import { Wait } from '../kit/refusal.ts'

export type Limits = {
  atOnce: number
  waiting: number
  /** of the places to wait, so many at most for one asker: a crowd from one place leaves room for the others */
  ofOne: number
}

/** Runs `work` for `asker` when its turn comes. Rejects with Wait where every place to wait is taken. */
export type Gate = <T>(asker: string, work: () => Promise<T>) => Promise<T>

export function gate({ atOnce, waiting, ofOne }: Limits): Gate {
  let running = 0
  const queue: { asker: string; enter: () => void }[] = []

  async function turn(asker: string): Promise<void> {
    if (running < atOnce) {
      running += 1
      return
    }
    const own = queue.filter((place) => place.asker === asker).length
    if (queue.length >= waiting || own >= ofOne) throw new Wait('Too much at once: try again in a moment', 2)
    // whoever leaves hands the place on, so nobody who comes meanwhile takes it first
    await new Promise<void>((enter) => queue.push({ asker, enter }))
  }

  function leave(): void {
    const next = queue.shift()
    if (next) next.enter()
    else running -= 1
  }

  return async (asker, work) => {
    await turn(asker)
    try {
      return await work()
    } finally {
      leave()
    }
  }
}
