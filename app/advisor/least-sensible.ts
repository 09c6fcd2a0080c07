// The least that "too many" can sensibly be: fewer nonconforming cords cost less than the tests that would find them.
import { breakEvenFraction } from '../statistics/economics/all-or-none.ts'
import type { Question } from './question.ts'

/** `fraction`: where a test costs what letting the cord through costs; `cords`: the same of the lot, rounded up; past the lot no test pays. */
export type LeastSensible = { fraction: number; cords: number }

/** Undefined where the reader gave no cost of an escape. */
export function leastSensible({ lotSize, effort }: Question): LeastSensible | undefined {
  const { testCents, escapeCents } = effort
  if (escapeCents === undefined) return undefined
  const exact = (BigInt(testCents) * BigInt(lotSize) + BigInt(escapeCents) - 1n) / BigInt(escapeCents)
  return { fraction: breakEvenFraction({ test: testCents, escape: escapeCents }), cords: Math.max(1, Number(exact)) }
}
