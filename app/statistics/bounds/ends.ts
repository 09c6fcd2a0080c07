// Where an inspection can end, from the best end to the worst, and how likely it ends so low or so high.
import { count } from '../check.ts'
import type { Law } from '../plans/law.ts'
import { type Undecided, undecidedBefore } from '../plans/passage.ts'
import { checkStages, type Stage, type Stages } from '../plans/plan.ts'

/** An inspection by `plan` that ended after its stage number `stage` (from 1) with `found` nonconforming units in all. */
export type End = { plan: Stages; stage: number; found: number }

/** The chances, given the quality, to end at this end or a lower one, and so on. */
export type EndChances = {
  thisOrLower: (law: Law) => number
  lower: (law: Law) => number
  thisOrHigher: (law: Law) => number
  higher: (law: Law) => number
}

/** A stage with the counts that reach it and the units it adds. */
export type Look = Stage & { before: Undecided; more: number }

/**
 * The chances of this end and of those below and above it, for every quality; all are sums of positive terms.
 *
 * The ends are ordered: accepted at stage 1, at stage 2 and so on, then rejected at the last stage, at the one before
 * and so on to stage 1, and by count within each. So an end at or below "stage s, d found", accepted or rejected, is
 * one accepted before stage s, or one that reached stage s and had d or fewer after it: who goes on from there can
 * only end between the two groups of stage s.
 *
 * @throws RangeError where the plan is none, or does not end at that stage with that count
 *
 * Source: stage-wise ordering, C. Jennison & B. W. Turnbull (1983), Technometrics 25, 49–58 (from memory).
 */
export function chancesOfEnd(end: End): EndChances {
  const { earlier, last } = looksUntil(end)
  const accepted = (law: Law) => earlier.reduce((sum, look) => sum + upTo(look.acceptanceNumber, look, law), 0)
  const rejected = (law: Law) => earlier.reduce((sum, look) => sum + above(look.rejectionNumber - 1, look, law), 0)
  return {
    thisOrLower: (law) => accepted(law) + upTo(end.found, last, law),
    lower: (law) => accepted(law) + upTo(end.found - 1, last, law),
    thisOrHigher: (law) => rejected(law) + above(end.found - 1, last, law),
    higher: (law) => rejected(law) + above(end.found, last, law),
  }
}

/** The stages before the one that ended the inspection, and that one; refuses an end that the plan does not have. */
export function looksUntil({ plan, stage, found }: End): { earlier: Look[]; last: Look } {
  checkStages(plan)
  count('stage', stage, 1, plan.stages.length)
  const passages = undecidedBefore(plan)
  const looks = plan.stages.slice(0, stage).map((each, index) => {
    const before = passages[index]! // one before each stage
    return { ...each, before, more: each.sampleSize - before.tested }
  })
  const last = looks.pop()! // stage is at least 1
  checkEnd(last, stage, found)
  return { earlier: looks, last }
}

function checkEnd({ before, more, acceptanceNumber, rejectionNumber }: Look, stage: number, found: number): void {
  const ways = before.share.length
  if (ways === 0) throw new RangeError(`stage must be one that the plan can reach, not ${stage}`)
  count('found', found, before.from, before.from + ways - 1 + more)
  if (found > acceptanceNumber && found < rejectionNumber)
    throw new RangeError(
      `found must be at most ${acceptanceNumber} or at least ${rejectionNumber} at the end of stage ${stage}, not ${found}`,
    )
}

/** Chance to reach a stage and have `most` or fewer after it; counts that cannot give that cost no arithmetic. */
function upTo(most: number, { before, more }: Look, law: Law): number {
  let sum = 0
  for (let i = 0; i < before.share.length && before.from + i <= most; i++) {
    const already = before.from + i
    const reached = before.share[i]! * law.density(already, before.tested)
    if (reached === 0) continue
    const room = most - already
    sum += room >= more ? reached : reached * law.after(before.tested, already).atMost(room, more)
  }
  return sum
}

/** Chance to reach a stage and have more than `most` after it. */
function above(most: number, { before, more }: Look, law: Law): number {
  let sum = 0
  for (let i = Math.max(0, most + 1 - more - before.from); i < before.share.length; i++) {
    const already = before.from + i
    const reached = before.share[i]! * law.density(already, before.tested)
    if (reached === 0) continue
    sum += already > most ? reached : reached * law.after(before.tested, already).moreThan(most - already, more)
  }
  return sum
}
