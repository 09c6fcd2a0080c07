// How the ways of testing and the belief behind the advice are said.

import type { AlternativeKind, LeftOut } from '../../app/advice/alternatives.ts'
import type { EvaluatedAlternative } from '../../app/advice/evaluate.ts'
import type { Prior } from '../../app/advice/prior.ts'
import { counted, frequency, percent, percentAtLeast, percentAtMost, whole } from '../figures.ts'
import { wayWords } from '../words/plans.ts'

/** What the inspector would do, stage by stage where there are more than one. */
export function doingOf({ kind, plan, standard }: EvaluatedAlternative): string {
  const [first, second] = plan.stages
  if (!first) return 'everything is accepted as it comes'
  if (kind === 'every-cord') return 'conforming cords are kept, the others go back'
  if (kind === 'sequential')
    return `a verdict is looked for after each cord, at the latest after ${whole(plan.stages.at(-1)?.sampleSize ?? 0)}`
  if (second)
    return `first ${whole(first.sampleSize)}: accept up to ${whole(first.acceptanceNumber)}, reject from ${whole(first.rejectionNumber)}; else ${whole(second.sampleSize - first.sampleSize)} more, up to ${whole(second.acceptanceNumber)} in all`
  const allowed = first.acceptanceNumber === 0 ? 'none may fail' : `at most ${whole(first.acceptanceNumber)} may fail`
  const letter = standard ? `, code letter ${standard.codeLetter}` : ''
  return `${whole(first.sampleSize)} cords, ${allowed}${letter}`
}

/** Which ways are missing from the table, and why; undefined where none is. */
export function leftOutIn(leftOut: readonly LeftOut[]): string | undefined {
  if (leftOut.length === 0) return undefined
  const reasons = leftOut.map(({ kind, because }) => `${wayWords[kind].toLowerCase()} (${reasonFor(kind, because)})`)
  return `Not compared: ${reasons.join('; ')}.`
}

function reasonFor(kind: AlternativeKind, because: LeftOut['because']): string {
  if (because === 'same') return 'here it comes to one sample that stops at its rejection number, which is listed'
  if (because === 'none' && kind === 'sequential') return 'no such plan of at most 10,000 cords keeps both risks'
  if (because === 'none') return 'no such plan keeps both risks of this lot'
  return 'the two numbers are so close that working it out takes more steps than a page is given; the same question always leaves it out'
}

/** How sure one can be of the belief, in a sentence. */
export function beliefIn(belief: Prior, interval: { lower: number; upper: number }): string {
  const { a, b, own, lots } = belief
  const mean = percent(a / (a + b))
  const range = `${percentAtLeast(interval.lower)} to ${percentAtMost(interval.upper)}`
  const said = `${mean} on average, and with a chance of 90 in 100 between ${range}`
  switch (belief.origin) {
    case 'typed':
      return `You say: ${said}.`
    case 'own lots':
      return `Its ${counted(lots, 'decided lot')} (${counted(own.found, 'cord')} of ${whole(own.sampleSize)} did not conform) show how its lots differ: ${said}. Fitted by maximum likelihood to the lots (beta-binomial).`
    case 'own cords':
      return `Its cords so far (${whole(own.found)} of ${whole(own.sampleSize)} in ${counted(lots, 'lot')} did not conform) upon ${belief.beneath === 'surveys' ? 'a weak prior worth two tested cords' : 'what the other suppliers are like'}: ${said}. Too few lots, or no more difference between them than chance, to say how its lots differ: they are taken to be alike.`
    case 'surveys':
      return `Nothing of its own is known, so a weak belief worth two tested cords stands in: ${said}. It rests on two published surveys of cords bought on the open market, in which most failed the cord limit. Both are by interested parties and no random samples: replace it below if you know better.`
  }
}

/** Of lots with too many, the share that may slip through where so many of 100 are to be caught. */
export function riskAllowed(catchOf100: string): number {
  return 1 - Number(catchOf100) / 100
}

/** The belief's mean as a natural frequency. */
export function meanIn({ a, b }: Prior): string {
  return frequency(a / (a + b))
}
