// The percentage question: what testing a fixed percentage would have done to lots of which every cord was tested.
import type { CordState } from '../items/judge.ts'

export type ReplayedLot = {
  lotId: number
  item: string
  size: number
  nonconforming: number
  /** the number that was too many for the lot by its frozen terms */
  tooMany: number
  heldTooMany: boolean
  /** what the percentage comes to in this lot, rounded up */
  sampleSize: number
  /** exact chance that the percentage would have accepted the lot */
  acceptance: number
  /** nonconforming cords it would then have shipped, on average over all draws */
  shipped: number
}

export type ReplaySum = {
  lots: ReplayedLot[]
  heldTooMany: number
  /** over the lots that held too many: accepted on average, cords shipped on average */
  acceptedOfThose: number
  shippedOfThose: number
}

export type PercentageQuestion = {
  supplier: { id: number; name: string }
  percent: string
  acceptanceNumber: number
  /** tested whole because the plan said so from the start */
  byPlan: ReplaySum
  /** tested whole because the sample had failed or the manager was not content: worse than usual */
  afterScreening: ReplaySum
  /** lots tested to the end that are left out because a cord was missing or could not be tested */
  leftOut: number
  /** the fraction used for the picture beside it: the supplier's own, or 2 % where there is none */
  fraction: { value: number; own: boolean }
}

export type LotGrid = {
  lotId: number
  size: number
  cordsInCarton: number
  percent: string
  seed: string
  /** one a cord, position 1 first */
  states: (CordState | 'not-tested')[]
  nonconforming: number
  /** positions of one sample by the percentage, drawn from the seed, in walking order */
  sample: number[]
  foundInSample: number
}
