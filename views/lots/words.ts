// How the parts of a lot's record are called.

import type { LotRecord } from '../../app/lots/record/lot.ts'
import type { Stage } from '../../app/statistics/plans/plan.ts'
import { counted, whole } from '../figures.ts'

/** What a reader needs to draw again; `cordsift-draw-1` is a stored name, whose whole document is docs/draw.md. */
export function drawMethodWords(method: string): string {
  return method === 'cordsift-draw-1'
    ? 'cordsift-draw-1: SHA-256 of the seed, a comma and 1, 2, 3 …, as a whole number modulo the lot size, plus 1; repeats are skipped. For counters above 2,000,000, or twice the lot size where that is more, modulo the number of cords that are left, in ascending order. docs/draw.md has it as a program'
    : method
}

/** The plan in words: how many are tested and what the plan allows, stage after stage where it has several. */
export function planSentence({ kind, sampleSize, acceptanceNumber, stages }: PlanInWords): string {
  if (kind === 'every-cord') return `Test all ${whole(sampleSize)}; conforming cords are kept, the others go back.`
  if (kind === 'groups') return groupsSentence(stages)
  if (stages.length > 1) return kind === 'sequential' ? oneByOneSentence(stages) : stages.map(stageSentence).join(' ')
  const allowed = acceptanceNumber === 0 ? 'none allowed' : `at most ${whole(acceptanceNumber)} allowed`
  return `Test ${counted(sampleSize, 'cord')}; ${allowed}.`
}

type PlanInWords = Pick<NonNullable<LotRecord['plan']>, 'kind' | 'sampleSize' | 'acceptanceNumber' | 'stages'>

function stageSentence(stage: Stage, index: number, stages: readonly Stage[]): string {
  const { sampleSize, acceptanceNumber, rejectionNumber } = stage
  const more = sampleSize - (stages[index - 1]?.sampleSize ?? 0)
  const test = index === 0 ? `Test ${counted(more, 'cord')} first` : `Otherwise test ${whole(more)} more`
  const accept =
    acceptanceNumber < 0 ? '' : `accept if ${failing(acceptanceNumber, index > 0 ? sampleSize : undefined)}`
  if (index === stages.length - 1) return `${test}: ${accept}, else reject.`
  return `${test}: ${accept}${accept && ', '}reject as soon as ${whole(rejectionNumber)} ${rejectionNumber === 1 ? 'fails' : 'fail'}.`
}

/** of: how many cords in all the count is of, where that is not plain. */
function failing(atMost: number, of: number | undefined): string {
  const all = of === undefined ? '' : ` of all ${whole(of)}`
  if (atMost === 0) return `none${all} fails`
  return `at most ${whole(atMost)}${all} ${atMost === 1 ? 'fails' : 'fail'}`
}

function oneByOneSentence(stages: readonly Stage[]): string {
  return `Test cord by cord, at most ${acceptingIn(stages)}`
}

function groupsSentence(stages: readonly Stage[]): string {
  return `Test in groups of ${counted(stages[0]?.sampleSize ?? 0, 'cord')}, the next picks of the draw over the whole lot, at most ${acceptingIn(stages)}`
}

function acceptingIn(stages: readonly Stage[]): string {
  const first = stages.find(({ acceptanceNumber }) => acceptanceNumber >= 0)
  const last = stages.at(-1)
  if (!first || !last) return ''
  const early = `accept at the earliest after ${whole(first.sampleSize)}, if ${failing(first.acceptanceNumber, undefined)}`
  return `${whole(last.sampleSize)}: ${early}; at the latest after ${whole(last.sampleSize)}, if ${failing(last.acceptanceNumber, undefined)}; reject as soon as too many fail.`
}

/** What the inspector is at: the second sample, or cord 12 of at most 71. Nothing for a plan of one stage. */
export function stageWords(plan: PlanInWords, stage: number): string | undefined {
  if (plan.stages.length === 1) return undefined
  if (plan.kind === 'sequential') return `cord ${whole(stage)} of at most ${whole(plan.sampleSize)}`
  if (plan.kind === 'groups') return `group ${whole(stage)} of at most ${whole(plan.stages.length)}`
  return `${ordinals[stage - 1] ?? `${stage}th`} sample`
}

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh']

/** Carton 7, place 37. */
export function placeWords({ carton, place }: { carton: number; place: number }): string {
  return `carton ${whole(carton)}, place ${whole(place)}`
}
