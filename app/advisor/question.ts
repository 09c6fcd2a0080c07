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
  const lotSize = wholeNumberIn(asked.lot, 1, largestLot)
  if (lotSize === undefined) problems.lot = 'Lot size: a whole number of cords from 1 to 1,000,000.'
  const most = lotSize ?? largestLot

  const tooMany = wholeCords(asked.limit, most)
  if (tooMany === undefined)
    problems.limit = `Too many: a whole number of cords such as 5, or a share such as 1%, at least 1 cord and at most the lot.`

  const confidence = ofHundred(asked.confidence)
  if (confidence === undefined) problems.confidence = 'How many of 100 to catch: a number above 0 and below 100.'

  const good = goodFrom(asked.good, most, tooMany)
  if (good === undefined)
    problems.good = `Rarely sent back: a number of cords from 0, or a share, and fewer than the number that is too many${tooMany === undefined ? '' : ` (${tooMany})`}.`

  const risk = ofHundred(asked.goodrisk)
  if (risk === undefined) problems.goodrisk = 'How rarely, of 100: a number above 0 and below 100.'

  const percent = plainDecimal(asked.percent.replace(/\s*%$/, ''))
  const sampleSize = percent === undefined ? undefined : wholeCords(`${percent}%`, most)
  if (sampleSize === undefined) problems.percent = 'What you test today: a percentage above 0 and at most 100.'

  const own = ownFrom(asked.own, most)
  if (own === 'unreadable')
    problems.own = `A contract's plan: cords to test and acceptance number, such as 50/1, with no more cords than the lot holds and an acceptance number below them.`

  if (
    lotSize === undefined ||
    tooMany === undefined ||
    confidence === undefined ||
    good === undefined ||
    risk === undefined ||
    percent === undefined ||
    sampleSize === undefined ||
    own === 'unreadable'
  )
    return { kind: 'problems', problems }
  const today = { percent, sampleSize }
  return { kind: 'question', question: { lotSize, tooMany, confidence, good: { ...good, risk }, today, own } }
}

/** Where 1 cord is too many, the lot that should rarely be sent back is one without any. */
function goodFrom(typed: string, lotSize: number, tooMany: number | undefined) {
  if (typed === '') return { nonconforming: Math.min(1, (tooMany ?? 2) - 1), demanded: false }
  const nonconforming = /^0+(%?)$/.test(typed) ? 0 : wholeCords(typed, lotSize)
  if (nonconforming === undefined || (tooMany !== undefined && nonconforming >= tooMany)) return undefined
  return { nonconforming, demanded: true }
}

function ownFrom(typed: string, lotSize: number): OwnPlan | undefined | 'unreadable' {
  if (typed === '') return undefined
  const match = /^(\d{1,7})\s*\/\s*(\d{1,7})$/.exec(typed)
  const sampleSize = wholeNumberIn(match?.[1] ?? '', 1, lotSize)
  const acceptanceNumber = wholeNumberIn(match?.[2] ?? '', 0, (sampleSize ?? 1) - 1)
  return sampleSize === undefined || acceptanceNumber === undefined ? 'unreadable' : { sampleSize, acceptanceNumber }
}
