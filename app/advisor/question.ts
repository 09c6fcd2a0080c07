// The advisor's question: what the address holds, read into numbers or answered with what is wrong and where.

import { z } from 'zod'

import { plainDecimal, wholeCords, wholeCordsAtMost } from '../kit/decimal.ts'
import { asked } from '../kit/fields.ts'

import { largestLot } from '../kit/limits.ts'
import type { Causes } from '../kit/problems.ts'
import { because, type Cause } from '../kit/refusal.ts'
import { ofHundred, type QuestionReading, wholeNumberIn } from './typed.ts'

/** A single plan as people write it, such as 50/1: cords to test and acceptance number. */
export type OwnPlan = { sampleSize: number; acceptanceNumber: number }

export type Question = {
  lotSize: number
  /** the number of nonconforming cords that is too many; such a lot holds exactly so many */
  tooMany: number
  /** the share of such lots that is to be caught, in (0, 1) */
  confidence: number
  /** a lot that should rarely be sent back, and how rarely; `demanded` where the reader asked for it */
  good: { nonconforming: number; risk: number; demanded: boolean }
  /** what the reader tests today, as typed and in whole cords */
  today: { percent: string; sampleSize: number }
  own: OwnPlan | undefined
}

/** The fields of the question as text; an absent or empty one stands for what is usual. */
export const questionFields = z.object({
  lot: asked(),
  limit: asked(),
  confidence: asked('95'),
  good: asked(),
  goodrisk: asked('5'),
  percent: asked('10'),
  own: asked(),
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
  if (!lotSize || !tooMany || !confidence || !good || !risk || !today || !own) return { kind: 'refused', causes }
  return {
    kind: 'question',
    question: { lotSize, tooMany, confidence, good: { ...good, risk }, today, own: own.plan },
  }
}

function todayFrom(typed: string, lotSize: number): Question['today'] | undefined {
  const percent = plainDecimal(typed.replace(/\s*%$/, ''))
  const sampleSize = percent === undefined ? undefined : wholeCords(`${percent}%`, lotSize)
  return percent === undefined || sampleSize === undefined ? undefined : { percent, sampleSize }
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
