// How the example's cords come about: a stated model of two terminations on a piece of cable, with a fixed seed.
import { createHash } from 'node:crypto'

/** What a maker's process is like on one day. All margins in dB above the cord limit. */
export type Process = {
  /** each end's crosstalk margin is normal with this mean and spread; the cord shows the worse end */
  crosstalk: { mean: number; spread: number }
  /** the cable's return loss margin: common to a spool, plus what each end takes away */
  returnLoss: { mean: number; spoolSpread: number; endSpread: number }
  /** chance that an end is wired wrongly, and that a cord has a visible fault */
  wireMapFault: number
  visualFault: number
}

/** One row of a results file: the position and what the tester says. */
export type MadeCord = {
  position: number
  crosstalkMargin: string
  returnLossMargin: string
  wireMap: 'in-order' | 'at-fault'
  visual: 'in-order' | 'at-fault'
  carton: number
  spool: string
}

/** Numbers from 0 to 1 that the same words give again anywhere: SHA-256 of the words and a counter. */
export function chanceFrom(words: string): () => number {
  let counter = 0
  return () => {
    counter += 1
    const digest = createHash('sha256').update(`${words},${counter}`).digest()
    return (digest.readUIntBE(0, 6) + 0.5) / 2 ** 48
  }
}

/**
 * Makes all cords of a lot. `processOf` tells which process made a carton (a mixing supplier has more than one),
 * `cordsOfSpool` how many cords in a row share one spool.
 */
export function makeLot(
  words: string,
  lot: { size: number; cordsInCarton: number; cordsOfSpool: number },
  processOf: (carton: number) => Process,
): MadeCord[] {
  const chance = chanceFrom(words)
  const cords: MadeCord[] = []
  let spool = 0
  let spoolShift = 0
  for (let position = 1; position <= lot.size; position++) {
    if ((position - 1) % lot.cordsOfSpool === 0) {
      spool += 1
      spoolShift = normalFrom(chance)
    }
    const carton = Math.ceil(position / lot.cordsInCarton)
    cords.push({ position, carton, spool: `W${spool}`, ...makeCord(chance, processOf(carton), spoolShift) })
  }
  return cords
}

function makeCord(chance: () => number, process: Process, spoolShift: number) {
  const { crosstalk, returnLoss } = process
  const ends = [0, 1].map(() => ({
    crosstalk: crosstalk.mean + crosstalk.spread * normalFrom(chance),
    loss: returnLoss.endSpread * Math.abs(normalFrom(chance)),
    miswired: chance() < process.wireMapFault,
  }))
  const cable = returnLoss.mean + returnLoss.spoolSpread * spoolShift
  return {
    crosstalkMargin: shown(Math.min(...ends.map((end) => end.crosstalk))),
    returnLossMargin: shown(cable - Math.max(...ends.map((end) => end.loss))),
    wireMap: ends.some((end) => end.miswired) ? ('at-fault' as const) : ('in-order' as const),
    visual: chance() < process.visualFault ? ('at-fault' as const) : ('in-order' as const),
  }
}

/** As a tester shows it, in hundredths of a dB; no zero has a sign. */
function shown(margin: number): string {
  return (Math.round(margin * 100) / 100 + 0).toFixed(2)
}

/** A standard normal number by Box and Muller's formula. */
function normalFrom(chance: () => number): number {
  return Math.sqrt(-2 * Math.log(chance())) * Math.cos(2 * Math.PI * chance())
}
