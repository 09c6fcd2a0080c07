// A percentage of a lot in whole cords.
import { wholeCords } from '../../kit/decimal.ts'
import { largestLot } from '../../kit/limits.ts'
import { Refusal } from '../../kit/refusal.ts'

/** Whole cords in a percentage of the lot, rounded up in decimal. Throws Refusal where it is none above 0 and at most 100. */
export function percentageOf(lotSize: number, percent: string): number {
  checkPercent(percent)
  return wholeCords(`${percent}%`, lotSize) ?? lotSize
}

/** Throws Refusal where the text is no percentage above 0 and at most 100. */
export function checkPercent(percent: string): void {
  if (wholeCords(`${percent}%`, largestLot) === undefined)
    throw new Refusal('invalid', 'percentage/percent', {}, 'percent')
}
