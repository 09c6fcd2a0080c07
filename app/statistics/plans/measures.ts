// What a plan does to a lot or a process of known quality: acceptance, average sample size, curtailed inspection.
import { type Law, type LotQuality, lawOfLot, lawOfProcess } from './law.ts'
import { acceptingOf, type Ending, type Endings, endingsOf, type Undecided, undecidedBefore } from './passage.ts'
import { checkStages, type Stage, type Stages } from './plan.ts'

/** What happens at one stage: the chance to reach it, and to be accepted or rejected there. */
export type Outcome = {
  readonly sampleSize: number
  readonly reached: number
  readonly accepted: number
  readonly rejected: number
}

/**
 * Probability that a plan accepts a lot of known quality (Type A operating characteristic, hypergeometric).
 *
 * @param plan its stages; no stages accept without testing
 * @param quality lotSize N ≥ 0 units, 0 ≤ nonconforming ≤ N
 * @throws RangeError that names the argument, or the stage that is not one (a sample above the lot among them)
 * @example acceptanceOfLot({ stages: [{ sampleSize: 48, acceptanceNumber: 0, rejectionNumber: 1 }] },
 *   { lotSize: 480, nonconforming: 12 }) // 0.278
 */
export function acceptanceOfLot(plan: Stages, quality: LotQuality): number {
  return acceptance(plan, checkedLot(plan, quality))
}

/** Probability that a plan accepts a sample of a process with this fraction nonconforming (Type B, binomial). */
export function acceptanceOfProcess(plan: Stages, fraction: number): number {
  return acceptance(plan, checkedProcess(plan, fraction))
}

/** Average number of units tested in a lot when every stage that is begun is finished. */
export function averageSampleSizeOfLot(plan: Stages, quality: LotQuality): number {
  return averageSampleSize(plan, checkedLot(plan, quality))
}

/** Average number of units tested of a process when every stage that is begun is finished. */
export function averageSampleSizeOfProcess(plan: Stages, fraction: number): number {
  return averageSampleSize(plan, checkedProcess(plan, fraction))
}

/**
 * Average number of units tested in a lot when inspection is curtailed: unit by unit, testing stops as soon as `found`
 * reaches the running stage's rejection number, or as soon as that stage accepts even if all its remaining units were
 * nonconforming. The verdicts, and so the acceptance, are those of the finished plan.
 */
export function curtailedSampleSizeOfLot(plan: Stages, quality: LotQuality): number {
  return curtailedSampleSize(plan, checkedLot(plan, quality))
}

/** As `curtailedSampleSizeOfLot`, for a process with this fraction nonconforming. */
export function curtailedSampleSizeOfProcess(plan: Stages, fraction: number): number {
  return curtailedSampleSize(plan, checkedProcess(plan, fraction))
}

/** What happens at each stage to a lot of known quality; the chances of all verdicts sum to 1. */
export function outcomesOfLot(plan: Stages, quality: LotQuality): Outcome[] {
  return outcomesUnder(plan, checkedLot(plan, quality))
}

/** What happens at each stage to a process with this fraction nonconforming. */
export function outcomesOfProcess(plan: Stages, fraction: number): Outcome[] {
  return outcomesUnder(plan, checkedProcess(plan, fraction))
}

/** What of a law the verdicts of a plan need. */
export type VerdictLaw = Pick<Law, 'density' | 'atMost' | 'moreThan'> & {
  after(tested: number, found: number): Pick<Law, 'atMost' | 'moreThan'>
}

/**
 * What happens at each stage under a law, which nobody checks against the plan here.
 *
 * A stage of several units is summed over the counts with which it is begun. One of a single unit has few ends, however
 * many counts are undecided, so those are summed, and what reaches it is what ends there or later: all terms are positive.
 */
export function outcomesUnder(plan: Stages, law: VerdictLaw): Outcome[] {
  const passages = undecidedBefore(plan)
  const endings = endingsOf(plan)
  const outcomes: Outcome[] = []
  let later = 0
  for (let index = plan.stages.length - 1; index >= 0; index--) {
    const stage = plan.stages[index]!
    const ends = endings[index]
    const outcome = ends ? ofOneUnit(ends, stage, law, later) : ofSeveral(passages[index]!, stage, law)
    later = outcome.reached
    outcomes.push(outcome)
  }
  return outcomes.reverse()
}

function ofSeveral(before: Undecided, stage: Stage, law: VerdictLaw): Outcome {
  const { sampleSize, acceptanceNumber, rejectionNumber } = stage
  const more = sampleSize - before.tested
  const outcome = { sampleSize, reached: 0, accepted: 0, rejected: 0 }
  for (let i = 0; i < before.share.length; i++) {
    const found = before.from + i
    const reached = before.share[i]! * law.density(found, before.tested)
    if (reached === 0) continue
    const rest = law.after(before.tested, found)
    outcome.reached += reached
    if (found <= acceptanceNumber) outcome.accepted += reached * rest.atMost(acceptanceNumber - found, more)
    if (found + more >= rejectionNumber) outcome.rejected += reached * rest.moreThan(rejectionNumber - 1 - found, more)
  }
  return outcome
}

function ofOneUnit(ends: Endings, { sampleSize }: Stage, law: VerdictLaw, later: number): Outcome {
  const accepted = chanceOf(ends.accepting, law)
  const rejected = chanceOf(ends.rejecting, law)
  return { sampleSize, reached: accepted + rejected + later, accepted, rejected }
}

function chanceOf(endings: readonly Ending[], law: VerdictLaw): number {
  let sum = 0
  for (let i = 0; i < endings.length; i++) {
    const { tested, found, share } = endings[i]!
    sum += share * law.density(found, tested)
  }
  return sum
}

function checkedLot(plan: Stages, quality: LotQuality): Law {
  const law = lawOfLot(quality)
  checkStages(plan, quality.lotSize)
  return law
}

function checkedProcess(plan: Stages, fraction: number): Law {
  checkStages(plan)
  return lawOfProcess(fraction)
}

/** A first sample by its law, and what comes later by the ends at which it accepts. */
function acceptance(plan: Stages, law: Law): number {
  if (plan.stages.length === 0) return 1
  let sum = 0
  for (const [index, ends] of acceptingOf(plan).entries()) {
    const { sampleSize, acceptanceNumber } = plan.stages[index]!
    sum += ends ? chanceOf(ends, law) : law.atMost(acceptanceNumber, sampleSize)
  }
  return Math.min(1, sum)
}

/** What each stage adds counts with the chance to reach it; a stage of a single unit is reached by what ends there or later. */
function averageSampleSize(plan: Stages, law: Law): number {
  const passages = undecidedBefore(plan)
  const endings = endingsOf(plan)
  let later = 0
  let sum = 0
  for (let index = plan.stages.length - 1; index >= 0; index--) {
    const before = passages[index]!
    const ends = endings[index]
    later = ends ? chanceOf(ends.accepting, law) + chanceOf(ends.rejecting, law) + later : reachedFrom(before, law)
    sum += (plan.stages[index]!.sampleSize - before.tested) * later
  }
  return sum
}

function reachedFrom({ tested, from, share }: Undecided, law: Law): number {
  let sum = 0
  for (let i = 0; i < share.length; i++) sum += share[i]! * law.density(from + i, tested)
  return sum
}

function curtailedSampleSize(plan: Stages, law: Law): number {
  const passages = undecidedBefore(plan)
  return plan.stages.reduce((sum, stage, index) => sum + expected(passages[index]!, stage, law, curtailedStage), 0)
}

/** What one stage adds, given the law of the units still untested and what was found before it. */
type Share = (rest: Law, found: number, more: number, stage: Stage) => number

/** Expectation of a stage's share over the counts with which the stage is begun. */
function expected(before: Undecided, stage: Stage, law: Law, share: Share): number {
  const more = stage.sampleSize - before.tested
  let sum = 0
  for (let i = 0; i < before.share.length; i++) {
    const found = before.from + i
    const reached = before.share[i]! * law.density(found, before.tested)
    if (reached > 0) sum += reached * share(law.after(before.tested, found), found, more, stage)
  }
  return sum
}

/**
 * Units tested in one curtailed stage. Within it a verdict falls with the i-th nonconforming unit (rejection) or with
 * the j-th conforming one (acceptance is then certain), and never both within `more` units, since i + j > more.
 */
function curtailedStage(rest: Law, found: number, more: number, stage: Stage): number {
  const toReject = stage.rejectionNumber - found
  const toAccept = more - (stage.acceptanceNumber - found)
  if (toReject <= 0 || toAccept <= 0 || more <= 1) return toReject <= 0 || toAccept <= 0 ? 0 : more
  const undecided = Math.min(more, toReject - 1)
  let sum = 0
  for (let extra = Math.max(0, more - toAccept + 1); extra <= undecided; extra++) sum += rest.density(extra, more)
  sum *= more
  if (toReject <= more) sum += rest.untilNonconforming(toReject, more)
  if (toAccept <= more) sum += rest.untilConforming(toAccept, more)
  return sum
}
