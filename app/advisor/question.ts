// The advisor's question: what the address holds, read into numbers or answered with what is wrong and where.
import { z } from 'zod'
import { plainDecimal, wholeCords } from '../kit/decimal.ts'
import type { Problems } from '../kit/problems.ts'
import { asked, largestLot, ofHundred, type QuestionReading, wholeNumberIn } from './typed.ts'

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
  const problems: Problems = {}
  /** a part that was read; one that was not leaves its sentence */
  const told = <T>(field: keyof QuestionText, value: T | undefined, sentence: string): T | undefined => {
    if (value === undefined) problems[field] = sentence
    return value
  }
  const lotSize = told('lot', wholeNumberIn(asked.lot, 1, largestLot), sentences.lot)
  const most = lotSize ?? largestLot
  const tooMany = told('limit', wholeCords(asked.limit, most), sentences.limit)
  const confidence = told('confidence', ofHundred(asked.confidence), sentences.confidence)
  const good = told('good', goodFrom(asked.good, most, tooMany), goodSentence(tooMany))
  const risk = told('goodrisk', ofHundred(asked.goodrisk), sentences.risk)
  const today = told('percent', todayFrom(asked.percent, most), sentences.percent)
  const own = told('own', ownFrom(asked.own, most), sentences.own)
  if (!lotSize || !tooMany || !confidence || !good || !risk || !today || !own) return { kind: 'problems', problems }
  return {
    kind: 'question',
    question: { lotSize, tooMany, confidence, good: { ...good, risk }, today, own: own.plan },
  }
}

const sentences = {
  lot: 'Lot size: a whole number of cords from 1 to 1,000,000.',
  limit: 'Too many: a whole number of cords such as 5, or a share such as 1%, at least 1 cord and at most the lot.',
  confidence: 'How many of 100 to catch: a number above 0 and below 100.',
  risk: 'How rarely, of 100: a number above 0 and below 100.',
  percent: 'What you test today: a percentage above 0 and at most 100.',
  own: `A contract's plan: cords to test and acceptance number, such as 50/1, with no more cords than the lot holds and an acceptance number below them.`,
}

function goodSentence(tooMany: number | undefined): string {
  return `Rarely sent back: a number of cords from 0, or a share, and fewer than the number that is too many${tooMany === undefined ? '' : ` (${tooMany})`}.`
}

function todayFrom(typed: string, lotSize: number): Question['today'] | undefined {
  const percent = plainDecimal(typed.replace(/\s*%$/, ''))
  const sampleSize = percent === undefined ? undefined : wholeCords(`${percent}%`, lotSize)
  return percent === undefined || sampleSize === undefined ? undefined : { percent, sampleSize }
}

/** Where 1 cord is too many, the lot that should rarely be sent back is one without any. */
function goodFrom(typed: string, lotSize: number, tooMany: number | undefined) {
  if (typed === '') return { nonconforming: Math.min(1, (tooMany ?? 2) - 1), demanded: false }
  const nonconforming = /^0+(%?)$/.test(typed) ? 0 : wholeCords(typed, lotSize)
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
