// Whether the finished lots of a series differ more than one steady process lets them: a signal, never a leave to take them as alike.
import type { LotUnderRule } from '../statistics/history/endings.ts'
import { homogeneityOfLots, leastChanceOfLots } from '../statistics/history/homogeneity.ts'
import { largestChanceOfOne } from '../statistics/history/one-fraction.ts'
import { TooManySteps } from '../statistics/steps.ts'
import type { FinishedLot } from './finished.ts'

/** The latest ones are asked: what lots long ago were like is no news, and the test stays within its steps. */
const mostLots = 20
/** Outcomes that the exact test may look at; beyond it every fraction is tried instead. */
const mostSteps = 2_000_000

/** A steady supplier is called unsteady in at most this share of the looks. */
export const level = 0.01

/**
 * What the test says. `totals`: exact, given what was found and tested in all lots; `every fraction`: the worst of all fractions, exact
 * where `error` is undefined. `leftOut`: lots under plans of several stages, which no rule of one number describes,
 * and those before the latest twenty.
 */
export type Difference =
  | {
      kind: 'differ' | 'not shown'
      by: 'totals' | 'every fraction'
      chance: number
      error: number | undefined
      lots: number
      leftOut: number
    }
  /** one lot; no nonconforming cord, or nothing else; too few for any outcome to show it; more than can be worked out */
  | {
      kind: 'cannot tell'
      why: 'one lot' | 'all the same' | 'too few cords' | 'too many lots'
      lots: number
      leftOut: number
    }

/** @param finished lots of one series */
export function differenceOf(finished: readonly FinishedLot[]): Difference {
  const lots = finished
    .filter((lot) => !lot.staged && lot.tested > 0)
    .slice(-mostLots)
    .map(underRule)
  const counts = { lots: lots.length, leftOut: finished.length - lots.length }
  if (lots.length < 2) return { kind: 'cannot tell', why: 'one lot', ...counts }
  if (lots.every(({ found }) => found === 0) || lots.every(({ found, tested }) => found === tested))
    return { kind: 'cannot tell', why: 'all the same', ...counts }
  return { ...tested(lots), ...counts }
}

type Tested =
  | Pick<Extract<Difference, { by: string }>, 'kind' | 'by' | 'chance' | 'error'>
  | { kind: 'cannot tell'; why: 'too few cords' | 'too many lots' }

/** Where every lot stops at its first nonconforming cord the totals say nothing, and every fraction is tried instead. */
function tested(lots: readonly LotUnderRule[]): Tested {
  if (lots.every(({ rejectionNumber }) => rejectionNumber === 1)) return within(() => overEveryFraction(lots))
  return within(
    () => givenTotals(lots),
    () => within(() => overEveryFraction(lots)),
  )
}

function givenTotals(lots: readonly LotUnderRule[]): Tested {
  if (leastChanceOfLots(lots, mostSteps) > level) return { kind: 'cannot tell', why: 'too few cords' }
  const chance = homogeneityOfLots(lots, mostSteps)
  return { kind: chance <= level ? 'differ' : 'not shown', by: 'totals', chance, error: undefined }
}

/** A simulated chance is taken as below the level only with its error. */
function overEveryFraction(lots: readonly LotUnderRule[]): Tested {
  const { chance, error } = largestChanceOfOne(lots)
  return { kind: chance + 2 * (error ?? 0) <= level ? 'differ' : 'not shown', by: 'every fraction', chance, error }
}

function within(
  work: () => Tested,
  otherwise: () => Tested = () => ({ kind: 'cannot tell', why: 'too many lots' }),
): Tested {
  try {
    return work()
  } catch (error) {
    if (error instanceof TooManySteps) return otherwise()
    throw error
  }
}

function underRule({ sampleSize, tested: number, found, rejectionNumber }: FinishedLot): LotUnderRule {
  return { sampleSize: rejectionNumber === undefined ? number : sampleSize, tested: number, found, rejectionNumber }
}
