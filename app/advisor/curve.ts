// The operating characteristics of the compared plans: how often a lot of each quality is accepted.
import { type Chance, type Comparison, isSampled, type OpenAlternative, type SampledAlternative } from './compare.ts'
import { chanceOf } from './more-ways.ts'
import type { Question } from './question.ts'

export type CurvePoint = { nonconforming: number; accepted: Chance }
export type Curve = { way: SampledAlternative; points: CurvePoint[] }

/** `most`: the last number drawn; `marked`: the few numbers that stand in the table. */
export type Curves = { most: number; drawn: Curve[]; marked: Curve[] }

const steps = 120

const named = new Set<OpenAlternative['kind']>(['contract', 'standard'])

/** The curves of the advised way, and of the plans that the reader names, in the order of the table. */
export function curvesOf(question: Question, { alternatives, advised, today }: Comparison): Curves {
  const sampled = alternatives
    .filter(isSampled)
    .filter((way) => way === advised || way === today || named.has(way.kind))
  const most = lastDrawn(question, sampled)
  const over = (numbers: number[]) =>
    sampled.map((way) => ({ way, points: numbers.map((nonconforming) => pointOf(way, question, nonconforming)) }))
  return { most, drawn: over(spread(most, steps)), marked: over(markedNumbers(question, most)) }
}

function pointOf(way: SampledAlternative, { lotSize }: Question, nonconforming: number): CurvePoint {
  return { nonconforming, accepted: chanceOf(way, lotSize, nonconforming) }
}

/** As far as the weakest plan needs to catch a lot as wanted. */
function lastDrawn({ lotSize, tooMany }: Question, ways: SampledAlternative[]): number {
  const weakest = Math.max(0, ...ways.map((way) => way.detectsFrom ?? lotSize))
  return Math.min(lotSize, Math.max(2 * tooMany, weakest))
}

/** Whole numbers from 0 to `most`, every one or about `count` of them. */
function spread(most: number, count: number): number[] {
  const numbers = new Set<number>()
  for (let step = 0; step <= count; step++) numbers.add(Math.round((most * step) / count))
  return [...numbers]
}

function markedNumbers({ good, tooMany }: Question, most: number): number[] {
  return [...new Set([...spread(most, 6), good.nonconforming, tooMany])].sort((a, b) => a - b)
}
