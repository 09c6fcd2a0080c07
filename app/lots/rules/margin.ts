// A margin as it is entered at the bench: a side of the limit by choice, and a number of dB.
import { plainDecimal } from '../../kit/decimal.ts'
import { because, type Cause } from '../../kit/refusal.ts'

export const sides = ['above', 'short'] as const
export type Side = (typeof sides)[number]

export type MarginEntry = { margin: string } | { nothing: true } | { problem: Cause }

/**
 * Joins the chosen side and the typed number into a signed margin in plain decimal notation, every digit kept.
 * A sign that was typed counts too, as the decimal keypads of some tablets have a minus key and others have none;
 * a side and a sign that contradict each other are asked about, never guessed.
 * Nothing typed and nothing chosen is no reading: `nothing`.
 */
export function marginFrom({ side, typed }: { side: Side | undefined; typed: string }): MarginEntry {
  if (typed.trim() === '') {
    return side === undefined ? { nothing: true } : { problem: because('reading/nothing-typed', {}) }
  }
  const margin = plainDecimal(typed)
  if (margin === undefined) return { problem: because('reading/typed-no-number', {}) }
  const signed = /^[+\-−–]/.test(typed.trim())
  const size = margin.replace('-', '')
  const below = signed ? margin.startsWith('-') : side === 'short'
  if (!signed && side === undefined) return { problem: because('reading/no-side', {}) }
  if (signed && side !== undefined && below !== (side === 'short')) {
    return { problem: because('reading/contradiction', {}) }
  }
  const signedMargin = below ? `-${size}` : size
  return isFailingZero(signedMargin) ? { problem: because('reading/failing-zero', {}) } : { margin: signedMargin }
}

/** A tester that shows a failing 0.0 has rounded: the record must not turn −0.04 into a cord exactly at the limit. */
export function isFailingZero(margin: string): boolean {
  return /^-[0.]+$/.test(margin)
}
