// Units tested beyond a plan's own verdict, because the first ones drawn are the sample of another plan whose verdict is wanted too.
import type { BetaPrior } from '../bounds/posterior.ts'
import { between, count } from '../check.ts'
import type { LotQuality } from '../plans/law.ts'
import { checkStages, type Stages } from '../plans/plan.ts'

/** The first units drawn, so many of them; they are tested until so many of them are nonconforming. */
export type FetchedFirst = { readonly sampleSize: number; readonly rejectionNumber: number }

/** Averages over all lots, those in which nothing is tested beyond the verdict among them. */
export type BeyondVerdict = {
  /** Units tested after the plan had accepted, and how many nonconforming ones they show: these do not escape. */
  readonly afterAcceptance: number
  readonly foundAfterAcceptance: number
  /** Units tested after the plan had rejected. */
  readonly afterRejection: number
}

/**
 * What a first fetch adds on average to the units tested until the plan's verdict, in a lot known only as a prior. Both stop as soon as they
 * can: the plan with the unit that reaches the rejection number of its running stage or at the end of a stage that accepts, the
 * fetch when it is complete or with the unit that reaches its own rejection number. Units are tested stage by stage, those of the fetch
 * first within each; nonconforming ones may lie anywhere in that order.
 *
 * @param plan its stages; one that draws fewer units than the fetch has leaves no fetch to go on with, and nothing is added
 * @param prior a and b from 1e-300 to 1e15
 * @throws RangeError that names the argument, or the stage that is none
 *
 * Formula: the chances of every count among the units tested so far, unit by unit, apart for a plan that is undecided, has
 * accepted and has rejected; each unit that is tested after the verdict counts with the chance that it is reached.
 *
 * @example beyondVerdictUnderPrior({ stages: [{ sampleSize: 3, acceptanceNumber: 0, rejectionNumber: 1 }] },
 *   { sampleSize: 2, rejectionNumber: 2 }, { a: 1, b: 1 }).afterRejection // 0.5: the second unit, where the first one fails
 */
export function beyondVerdictUnderPrior(plan: Stages, fetch: FetchedFirst, { a, b }: BetaPrior): BeyondVerdict {
  between('prior.a', a, 1e-300, 1e15)
  between('prior.b', b, 1e-300, 1e15)
  return beyondVerdict(plan, fetch, (tested, found) => (a + found) / (a + b + tested))
}

/**
 * The same in a lot of known quality.
 *
 * @throws RangeError that names the argument, or the stage that is none
 * @example beyondVerdictInLot({ stages: [{ sampleSize: 3, acceptanceNumber: 0, rejectionNumber: 1 }] },
 *   { sampleSize: 2, rejectionNumber: 2 }, { lotSize: 4, nonconforming: 1 }).afterRejection // 0.25
 */
export function beyondVerdictInLot(plan: Stages, fetch: FetchedFirst, quality: LotQuality): BeyondVerdict {
  const { lotSize, nonconforming } = quality
  count('lotSize', lotSize)
  count('nonconforming', nonconforming, 0, lotSize)
  checkStages(plan, lotSize)
  return beyondVerdict(plan, fetch, (tested, found) => (nonconforming - found) / (lotSize - tested))
}

/** next: the chance that the unit after so many tested, so many of them nonconforming, is nonconforming. */
function beyondVerdict(
  plan: Stages,
  { sampleSize, rejectionNumber }: FetchedFirst,
  next: (tested: number, found: number) => number,
): BeyondVerdict {
  checkStages(plan)
  count('fetch.sampleSize', sampleSize, 1)
  count('fetch.rejectionNumber', rejectionNumber, 1)
  const added = { afterAcceptance: 0, foundAfterAcceptance: 0, afterRejection: 0 }
  if ((plan.stages.at(-1)?.sampleSize ?? 0) < sampleSize) return added

  const chances = { undecided: row(rejectionNumber), accepted: row(rejectionNumber), rejected: row(rejectionNumber) }
  chances.undecided[0] = 1
  let stage = 0
  for (let tested = 0; tested < sampleSize; tested++) {
    stage = decide(plan, stage, tested, chances)
    for (let found = 0; found < rejectionNumber && found <= tested; found++) {
      const accepted = chances.accepted[found]!
      added.afterAcceptance += accepted
      added.afterRejection += chances.rejected[found]!
      if (accepted > 0) added.foundAfterAcceptance += accepted * next(tested, found)
    }
    for (const each of [chances.undecided, chances.accepted, chances.rejected])
      step(each, tested, (found) => next(tested, found))
  }
  return added
}

/** Chances by the number found; those that have reached the fetch's rejection number are let go. */
type Row = Float64Array
type Chances = { undecided: Row; accepted: Row; rejected: Row }

function row(rejectionNumber: number): Row {
  return new Float64Array(rejectionNumber)
}

/** Moves what the plan decides after so many units to where it belongs; returns the stage that runs from there. */
function decide(
  { stages }: Stages,
  running: number,
  tested: number,
  { undecided, accepted, rejected }: Chances,
): number {
  let at = running
  for (;;) {
    const stage = stages[at]
    if (!stage) return at
    const ends = stage.sampleSize === tested
    for (let found = 0; found < undecided.length; found++) {
      const into =
        found >= stage.rejectionNumber ? rejected : ends && found <= stage.acceptanceNumber ? accepted : undefined
      if (!into) continue
      into[found]! += undecided[found]!
      undecided[found] = 0
    }
    if (!ends) return at
    at++
  }
}

function step(chances: Row, tested: number, next: (found: number) => number): void {
  for (let found = Math.min(chances.length - 1, tested + 1); found >= 0; found--) {
    const stays = chances[found]! > 0 ? chances[found]! * (1 - next(found)) : 0
    const comes = found > 0 && chances[found - 1]! > 0 ? chances[found - 1]! * next(found - 1) : 0
    chances[found] = stays + comes
  }
}
