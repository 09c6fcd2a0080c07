// How the ways of testing and what is known of a supplier are said.

import type { Advice } from '../../app/advice/advise.ts'
import type { AlternativeKind, LeftOut } from '../../app/advice/alternatives.ts'
import type { AssessedAlternative } from '../../app/advice/evaluate.ts'
import type { Prior } from '../../app/advice/prior.ts'
import type { Stage } from '../../app/statistics/plans/plan.ts'
import { counted, frequency, percent, percentAtLeast, percentAtMost, whole } from '../figures.ts'
import { lotsInWords } from '../suppliers/between-lots.tsx'
import { wayWords } from '../words/plans.ts'

/** As a row of the table is headed. */
export function wayNameOf({ kind, plan }: AssessedAlternative): string {
  return kind === 'groups' ? `${wayWords.groups} of ${whole(plan.stages[0]?.sampleSize ?? 0)}` : wayWords[kind]
}

/** What the inspector would do, stage by stage where there are more than one. */
export function doingOf({ kind, plan, standard }: AssessedAlternative): string {
  const [first, second] = plan.stages
  if (!first) return 'everything is accepted as it comes'
  if (kind === 'every-cord') return 'conforming cords are kept, the others go back'
  if (kind === 'groups') return groupsIn(plan.stages)
  if (second)
    return `first ${whole(first.sampleSize)}: accept up to ${whole(first.acceptanceNumber)}, reject from ${whole(first.rejectionNumber)}; else ${whole(second.sampleSize - first.sampleSize)} more, up to ${whole(second.acceptanceNumber)} in all`
  const allowed = first.acceptanceNumber === 0 ? 'none allowed' : `at most ${whole(first.acceptanceNumber)} allowed`
  const letter = standard ? `, code letter ${standard.codeLetter}` : ''
  return `${counted(first.sampleSize, 'cord')}, ${allowed}${letter}`
}

function groupsIn(stages: readonly Stage[]): string {
  const accepting = stages.find(({ acceptanceNumber }) => acceptanceNumber >= 0)
  const most = stages.at(-1)?.sampleSize ?? 0
  return `a verdict after each group that is clear: accepted at the earliest after ${whole(accepting?.sampleSize ?? most)}, at the latest decided after ${whole(most)}`
}

/** How far one walks for a group: its picks lie over the whole lot. */
export function openedIn({ group, lot }: Advice): string {
  const { cartons } = lot.announced
  if (cartons === 1) return 'every group is fetched from the one carton'
  const opened = Math.round(group.cartonsOpened)
  const about = opened < cartons ? `about ${whole(opened)} of the ${whole(cartons)}` : `nearly all ${whole(cartons)}`
  return `each group of ${whole(group.size)} opens ${about} cartons`
}

/** Which ways are missing from the table, and why; undefined where none is. */
export function leftOutIn(leftOut: readonly LeftOut[]): string | undefined {
  if (leftOut.length === 0) return undefined
  const reasons = leftOut.map(({ kind, because }) => `${wayWords[kind].toLowerCase()} (${reasonFor(kind, because)})`)
  return `Not compared: ${reasons.join('; ')}.`
}

function reasonFor(kind: AlternativeKind, because: LeftOut['because']): string {
  if (because === 'same') return 'here it comes to one sample that stops at its rejection number, which is listed'
  if (because === 'none' && kind === 'groups') return 'no such plan of at most 10,000 cords keeps both risks'
  if (because === 'none') return 'no such plan keeps both risks of this lot'
  return 'the two numbers are so close that working it out takes more steps than a page is given; the same question always leaves it out'
}

/** What is known of the supplier, in a sentence or two. */
export function knownIn(advice: Advice): string {
  const { finished, lot } = advice
  if (advice.kind === 'priced' && advice.prior.origin !== 'lots') return typedIn(advice)
  const lots = finished.length === 0 ? 'none' : lotsInWords(finished.toReversed())
  const count = `${counted(finished.length, 'finished lot')} of this item from ${lot.supplier.name}: ${lots}.`
  if (advice.kind === 'protection')
    return `${count} Costs are worked out from the fifth on; of fewer nothing is fitted.`
  const { prior, interval } = advice
  return `${count} They let ${rangeIn(prior, interval)} be expected (beta-binomial, by maximum likelihood, worth at most one lot; lots may differ).`
}

function typedIn({ prior, interval }: Extract<Advice, { kind: 'priced' }>): string {
  if (prior.origin === 'fraction') return `You enter a share of ${percent(prior.fraction)}, and it is taken as known.`
  return `You say: ${rangeIn(prior, interval)}.`
}

function rangeIn({ a, b }: Prior, { lower, upper }: { lower: number; upper: number }): string {
  return `${percent(a / (a + b))} on average, and with a chance of 90 in 100 between ${percentAtLeast(lower)} and ${percentAtMost(upper)}`
}

/** Beside a supplier of which little is known; no prior is made of it. */
export const surveysNote =
  'Two published surveys of cords bought on the open market found 322 of 499 and about 34 of 56 below the cord limit. Both are by interested parties and no random samples: nothing here is worked out from them.'

/** Of lots with too many, the share that may slip through where so many of 100 are to be caught. */
export function riskAllowed(catchOf100: string): number {
  return 1 - Number(catchOf100) / 100
}

/** How often a lot with too many gets through. */
export function slipsThrough({ acceptance, rejection }: AssessedAlternative, catchOf100: string): string {
  return frequency(acceptance, rejection, riskAllowed(catchOf100))
}

/** Nonconforming cords of a lot that should rarely be rejected: always fewer than are too many. */
export function goodIn({ requirements, lot }: Advice): number {
  return Math.min(requirements.good, lot.terms.tooMany - 1)
}
