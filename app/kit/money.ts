// Money in whole cents; the currency is one word of the configuration.
import { largestCost } from './limits.ts'

/** Reads an amount such as 12, 12.5 or 12,50 as whole cents; undefined where it is none, negative, finer than a cent or above ten million. */
export function centsFrom(text: string): number | undefined {
  const match = /^(\d{1,8})(?:[.,](\d{1,2}))?$/.exec(text.trim())
  if (!match) return undefined
  const cents = Number(match[1]) * 100 + Number((match[2] ?? '').padEnd(2, '0'))
  return cents <= largestCost ? cents : undefined
}
