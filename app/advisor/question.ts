// The advisor's question: what the address holds, read into numbers or answered with what is wrong and where.

import { z } from 'zod'

import { plainDecimal, wholeCords, wholeCordsAtMost } from '../kit/decimal.ts'
import { asked } from '../kit/fields.ts'

import { largestLot } from '../kit/limits.ts'
import { centsFrom } from '../kit/money.ts'
import type { Causes } from '../kit/problems.ts'
import { because, type Cause } from '../kit/refusal.ts'
import type { Inspection } from '../statistics/plans/standard.ts'
import { type InspectionLevel, inspectionLevels } from '../statistics/plans/tables/code-letters.ts'
import { type AcceptanceQualityLimit, acceptanceQualityLimits } from '../statistics/plans/tables/table.ts'
import { ofHundred, type QuestionReading, wholeNumberIn } from './typed.ts'

/** A single plan as people write it, such as 50/1: cords to test and acceptance number. */
export type OwnPlan = { sampleSize: number; acceptanceNumber: number }

/** What the reader does today: a share of the lot with none allowed, a plan of their own, or nothing. */
export type Today =
  | { kind: 'percentage'; percent: string; sampleSize: number }
  | ({ kind: 'plan' } & OwnPlan)
  | { kind: 'nothing' }

/** What leads to a plan of the published standard. */
type StandardWish = {
  acceptanceQualityLimit: AcceptanceQualityLimit
  level: InspectionLevel
  inspection: Inspection
}

/** What a test takes and costs; an escape's cost only where the reader gave one. In cents. */
export type Effort = { cordsAnHour: number; testCents: number; escapeCents: number | undefined }

export type Question = {
  lotSize: number
  /** the number of nonconforming cords that is too many; such a lot holds exactly so many */
  tooMany: number
  /** the share of such lots that is to be caught, in (0, 1) */
  confidence: number
  /** a lot that should rarely be sent back, and how rarely; `demanded` where the reader asked for it */
  good: { nonconforming: number; risk: number; demanded: boolean }
  today: Today
  own: OwnPlan | undefined
  standard: StandardWish | undefined
  effort: Effort
}

/** What stands in the form before anybody asked: a lot and what is too many of it. */
export const exampleQuestion = { lot: '600', limit: '2 %' }

/** The fields of the question as text; an absent or empty one stands for what is usual. */
export const questionFields = z.object({
  lot: asked(),
  limit: asked(),
  confidence: asked('95'),
  good: asked(),
  goodrisk: asked('5'),
  /** left empty it says that nothing is tested today */
  percent: z.string().trim().max(40, { error: 'This is longer than any answer to it.' }).default('10%'),
  own: asked(),
  aql: asked(),
  level: asked('II'),
  severity: asked('normal'),
  /** thirty cords an hour and 1.50 a test: common practice, no source */
  rate: asked('30'),
  test: asked('1.50'),
  escape: asked(),
})
export type QuestionText = z.infer<typeof questionFields>

/** Reads the texts of a question into numbers; an empty `good` stands for 1, demanded by nobody. */
export function questionFrom(asked: QuestionText): QuestionReading<Question> {
  const causes: Causes = {}
  /** a part that was read; one that was not leaves its cause */
  const told = <T>(field: keyof QuestionText, value: T | undefined, cause: Cause): T | undefined => {
    if (value === undefined) causes[field] = cause
    return value
  }
  const lotSize = told('lot', wholeNumberIn(asked.lot, 1, largestLot), because('question/lot-size', {}))
  const most = lotSize ?? largestLot
  const tooMany = told('limit', wholeCords(asked.limit, most), because('question/too-many', {}))
  const confidence = told('confidence', ofHundred(asked.confidence), because('question/confidence', {}))
  const good = told('good', goodFrom(asked.good, most, tooMany), because('question/good', { tooMany }))
  const risk = told('goodrisk', ofHundred(asked.goodrisk), because('question/risk', {}))
  const today = told('percent', todayFrom(asked.percent, most), because('question/percent', {}))
  const own = told('own', ownFrom(asked.own, most), because('question/own-plan', {}))
  const standard = standardFrom(asked, causes)
  const effort = effortFrom(asked, causes)
  if (!lotSize || !tooMany || !confidence || !good || !risk || !today || !own || !standard || !effort)
    return { kind: 'refused', causes }
  return {
    kind: 'question',
    question: { lotSize, tooMany, confidence, good: { ...good, risk }, today, own: own.plan, ...standard, effort },
  }
}

function todayFrom(typed: string, lotSize: number): Today | undefined {
  if (typed === '') return { kind: 'nothing' }
  if (typed.includes('/')) {
    const plan = ownFrom(typed, lotSize)?.plan
    return plan && { kind: 'plan', ...plan }
  }
  const percent = plainDecimal(typed.replace(/\s*%$/, ''))
  const sampleSize = percent === undefined ? undefined : wholeCords(`${percent}%`, lotSize)
  return percent === undefined || sampleSize === undefined ? undefined : { kind: 'percentage', percent, sampleSize }
}

const mostAnHour = 1000

function effortFrom({ rate, test, escape: escaped }: QuestionText, causes: Causes): Effort | undefined {
  const cordsAnHour = wholeNumberIn(rate, 1, mostAnHour)
  if (cordsAnHour === undefined) causes.rate = because('question/rate', { most: mostAnHour })
  const testCents = centsFrom(test)
  if (testCents === undefined) causes.test = because('question/test-cost', {})
  const escapeCents = escaped === '' ? undefined : centsFrom(escaped)
  if (escaped !== '' && !escapeCents) causes.escape = because('question/escape-cost', {})
  if (cordsAnHour === undefined || testCents === undefined || causes.escape) return undefined
  return { cordsAnHour, testCents, escapeCents }
}

const severities = ['normal', 'tightened', 'reduced'] as const

/** Without a limit there is no plan of the standard to show. */
function standardFrom(
  { aql, level, severity }: QuestionText,
  causes: Causes,
): { standard: StandardWish | undefined } | undefined {
  if (aql === '') return { standard: undefined }
  const acceptanceQualityLimit = acceptanceQualityLimits.find(
    (limit) => Number(limit) === Number(aql.replace(',', '.')),
  )
  if (acceptanceQualityLimit === undefined) causes.aql = because('question/quality-limit', {})
  const known = inspectionLevels.find((each) => each === level.toUpperCase())
  if (known === undefined) causes.level = because('question/level', {})
  const inspection = severities.find((each) => each === severity.toLowerCase())
  if (inspection === undefined) causes.severity = because('question/severity', {})
  if (acceptanceQualityLimit === undefined || known === undefined || inspection === undefined) return undefined
  return { standard: { acceptanceQualityLimit, level: known, inspection } }
}

/** Where 1 cord is too many, the lot that should rarely be sent back is one without any. */
function goodFrom(typed: string, lotSize: number, tooMany: number | undefined) {
  if (typed === '') return { nonconforming: Math.min(1, (tooMany ?? 2) - 1), demanded: false }
  const nonconforming = wholeCordsAtMost(typed, lotSize)
  if (nonconforming === undefined || (tooMany !== undefined && nonconforming >= tooMany)) return undefined
  return { nonconforming, demanded: true }
}

/** undefined where it cannot be read; no plan where none was typed */
function ownFrom(typed: string, lotSize: number): { plan: OwnPlan | undefined } | undefined {
  if (typed === '') return { plan: undefined }
  const match = /^(\d{1,7})\s*\/\s*(\d{1,7})$/.exec(typed)
  const sampleSize = wholeNumberIn(match?.[1] ?? '', 1, lotSize)
  const acceptanceNumber = wholeNumberIn(match?.[2] ?? '', 0, (sampleSize ?? 1) - 1)
  return sampleSize === undefined || acceptanceNumber === undefined
    ? undefined
    : { plan: { sampleSize, acceptanceNumber } }
}
