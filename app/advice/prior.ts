// What is believed of the lot's fraction nonconforming before a cord of it is tested, and where that comes from.

import type { FinishedLot } from '../history/finished.ts'
import { priorOfFinished } from '../history/series-prior.ts'
import { sharpPrior } from './sensitivity.ts'

/**
 * A beta distribution of the lot's fraction; it says as much as a + b tested cords of which a did not conform.
 * typed: the buyer's own; fraction: a single share that the buyer entered, to see what it would cost; lots: fitted to the finished
 * lots of this item from this supplier.
 */
export type Prior = { a: number; b: number } & (
  | { origin: 'typed' }
  | { origin: 'fraction'; fraction: number }
  | { origin: 'lots'; lots: number }
)

/** Share in percent and the number of tested cords it is worth; without a worth it is taken as the share itself. */
export type TypedPrior = { percent: number; worth: number | undefined }

/** The belief about the next lot; undefined where nothing was typed and under five lots are finished: of so few nothing is fitted. */
export function priorOf(finished: readonly FinishedLot[], typed: TypedPrior | undefined): Prior | undefined {
  if (typed) return priorOfTyped(typed)
  const prior = priorOfFinished(finished)
  return prior.kind === 'fitted' ? { a: prior.a, b: prior.b, origin: 'lots', lots: prior.lots } : undefined
}

function priorOfTyped({ percent, worth }: TypedPrior): Prior {
  const fraction = percent / 100
  if (worth === undefined) return { ...sharpPrior(fraction), origin: 'fraction', fraction }
  return { a: fraction * worth, b: (1 - fraction) * worth, origin: 'typed' }
}
