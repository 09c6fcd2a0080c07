// What the address of the advice may hold, each with the sentence that stands beside it when it cannot be read.

import { z } from 'zod'
import type { AdviceText } from '../../advice/asked.ts'
import type { AskedOfAdvice } from '../../advice/work-out.ts'
import { plainDecimal } from '../../kit/decimal.ts'
import { largestLot } from '../../kit/limits.ts'
import { afterRejections } from '../../terms/item.ts'

export const unasked: AdviceText = {
  good: '1',
  goodrisk: '5',
  percent: '10',
  own: '',
  mean: '',
  worth: '',
  after: '',
}

export const adviceFields = z
  .object({
    good: decimal(unasked.good, { from: 0, to: largestLot, whole: true }, 'Type a whole number of cords from 0'),
    goodrisk: decimal(unasked.goodrisk, { from: 0.001, to: 99.999 }, 'Type how many times in 100: above 0, below 100'),
    percent: decimal(unasked.percent, { from: 0.0001, to: 100 }, 'A percentage is above 0 and at most 100'),
    own: ownPlan('Write a plan as cords to test / acceptance number, such as 50/1, or leave it empty'),
    mean: decimal('', { from: 0.0001, to: 99.9999 }, 'Type a percentage above 0 and below 100, or leave it empty'),
    worth: decimal(
      '',
      { from: 0.1, to: largestLot },
      'Type a number of cords from 0.1 to 1,000,000, or leave it empty',
    ),
    after: z.enum(['', ...afterRejections], { error: 'Choose what happens to a rejected lot' }).default(''),
  })
  .superRefine(({ mean, worth }, read) => {
    if (mean === undefined && worth !== undefined)
      read.addIssue({
        code: 'custom',
        path: ['mean'],
        message: 'Say which share is worth so many tested cords, or leave both empty',
      })
  })
  .transform(
    ({ good = 0, goodrisk = 5, percent = 10, own, mean, worth, after }): AskedOfAdvice => ({
      good,
      goodRisk: Number((goodrisk / 100).toPrecision(12)),
      share: Number((percent / 100).toPrecision(12)),
      own,
      afterRejection: after === '' ? undefined : after,
      belief: mean === undefined ? undefined : { percent: mean, worth },
    }),
  )

type Range = { from: number; to: number; whole?: boolean }

/** An empty field is not said; one that is left out of the address is what the page starts with. */
function decimal(first: string, { from, to, whole = false }: Range, sentence: string) {
  return z
    .string({ error: sentence })
    .default(first)
    .transform((typed, read) => {
      if (typed.trim() === '') return undefined
      const value = Number(plainDecimal(typed) ?? 'none')
      if (value >= from && value <= to && (!whole || Number.isInteger(value))) return value
      read.addIssue({ code: 'custom', message: sentence })
      return z.NEVER
    })
}

/** A single plan as people write it; the acceptance number below the sample. */
function ownPlan(sentence: string) {
  return z
    .string({ error: sentence })
    .default('')
    .transform((typed, read) => {
      if (typed.trim() === '') return undefined
      const [, size = '', allowed = ''] = /^\s*(\d{1,7})\s*\/\s*(\d{1,7})\s*$/.exec(typed) ?? []
      const [sampleSize, acceptanceNumber] = [Number(size), Number(allowed)]
      if (sampleSize >= 1 && sampleSize <= largestLot && acceptanceNumber < sampleSize)
        return { sampleSize, acceptanceNumber }
      read.addIssue({ code: 'custom', message: sentence })
      return z.NEVER
    })
}
