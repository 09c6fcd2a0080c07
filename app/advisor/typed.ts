// Reads what was typed into the two open pages: whole numbers, numbers of 100 without a binary rounding.
import { plainDecimal } from '../kit/decimal.ts'
import type { Causes } from '../kit/problems.ts'

/** What the texts of a question come to: numbers, or why not, by field. */
export type QuestionReading<Q> = { kind: 'question'; question: Q } | { kind: 'refused'; causes: Causes }

/** A whole number from `least` to `most`, or undefined. */
export function wholeNumberIn(text: string, least: number, most: number): number | undefined {
  if (!/^\d{1,9}$/.test(text)) return undefined
  const value = Number(text)
  return value >= least && value <= most ? value : undefined
}

/** "95" or "97,5" of 100 as a fraction strictly between 0 and 1, or undefined. The point is moved in decimal. */
export function ofHundred(text: string): number | undefined {
  const digits = plainDecimal(text.replace(/\s*%$/, ''))
  if (digits === undefined) return undefined
  const fraction = Number(`${digits}e-2`)
  return fraction > 0 && fraction < 1 ? fraction : undefined
}
