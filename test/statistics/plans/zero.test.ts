// Zero-acceptance plans, percentages and the two plans without a sample, against brute force, regulations and scenarios.
import { describe, expect, test } from 'vitest'
import { exceeds } from '../../../app/statistics/check.ts'
import { everyUnit, noTest } from '../../../app/statistics/plans/every-unit.ts'
import { acceptanceOfLot } from '../../../app/statistics/plans/measures.ts'
import { percentagePlan, unitsInShare } from '../../../app/statistics/plans/percentage.ts'
import { designZeroForLot, designZeroForProcess, zeroPlan } from '../../../app/statistics/plans/zero.ts'

describe('the smallest zero-acceptance plan', () => {
  // Source: the product (N − D)(N − D − 1) … / N(N − 1) …, unit by unit.
  test('of every lot up to 60, for every number that is too many', () => {
    for (const lotSize of [1, 2, 10, 37, 60])
      for (let nonconforming = 1; nonconforming <= lotSize; nonconforming++)
        for (const risk of [0.5, 0.1, 0.05, 0.001]) {
          let clean = 1
          let least = 0
          while (exceeds(clean, risk)) {
            clean *= (lotSize - nonconforming - least) / (lotSize - least)
            least++
          }
          expect(designZeroForLot({ lotSize, nonconforming, risk })).toBe(least)
        }
  })

  // Source: 40 CFR 1090.1805 asks more than these exact minima for "95 % confidence, at most 10 %"; minima computed in base R.
  test.each([
    { lotSize: 25, nonconforming: 3, least: 16, regulation: 19 },
    { lotSize: 40, nonconforming: 5, least: 18, regulation: 20 },
    { lotSize: 65, nonconforming: 7, least: 22, regulation: 25 },
    { lotSize: 100, nonconforming: 11, least: 23, regulation: 29 },
    { lotSize: 100, nonconforming: 10, least: 25, regulation: 29 },
  ])('of $lotSize units with $nonconforming is $least', ({ lotSize, nonconforming, least, regulation }) => {
    expect(designZeroForLot({ lotSize, nonconforming, risk: 0.05 })).toBe(least)
    expect(designZeroForProcess({ fraction: 0.1, risk: 0.05 })).toBe(29)
    expect(least).toBeLessThanOrEqual(regulation)
  })

  test('counts equality with the risk as met', () => {
    expect(designZeroForLot({ lotSize: 100, nonconforming: 1, risk: 0.1 })).toBe(90) // by hand: 10 of 100 orders miss it
    expect(designZeroForProcess({ fraction: 0.5, risk: 0.125 })).toBe(3) // by hand: a half to the third power
    expect(designZeroForProcess({ fraction: 0.9, risk: 0.01 })).toBe(2) // by hand: in binary 1 − 0.9 is not 0.1
  })

  test('of a process of one in a thousand millions is whole and finite', () => {
    // By hand: ln 20 / (10⁻⁹ + 10⁻¹⁸ / 2) = 2995732272.06.
    expect(designZeroForProcess({ fraction: 1e-9, risk: 0.05 })).toBe(2_995_732_273)
    expect(designZeroForProcess({ fraction: 1, risk: 1e-300 })).toBe(1)
    expect(() => designZeroForProcess({ fraction: 1e-17, risk: 0.05 })).toThrow('fraction must be at least')
    expect(() => designZeroForProcess({ fraction: 0, risk: 0.05 })).toThrow('fraction must be above 0')
  })

  test('has no lot without a nonconforming unit', () => {
    expect(() => designZeroForLot({ lotSize: 100, nonconforming: 0, risk: 0.05 })).toThrow('nonconforming')
    expect(() => designZeroForLot({ lotSize: 100, nonconforming: 101, risk: 0.05 })).toThrow('nonconforming')
  })
})

describe('a percentage of the lot', () => {
  // Source: decimal arithmetic by hand.
  test.each([
    { share: 0.29, lotSize: 1000, units: 290 },
    { share: 0.07, lotSize: 100, units: 7 },
    { share: 0.1, lotSize: 480, units: 48 },
    { share: 0.1, lotSize: 481, units: 49 },
    { share: 0.57, lotSize: 10_000_000, units: 5_700_000 },
    { share: 0.001, lotSize: 1, units: 1 },
    { share: 0, lotSize: 500, units: 0 },
    { share: 1, lotSize: 7, units: 7 },
  ])('$share of $lotSize is $units units', ({ share, lotSize, units }) => {
    expect(unitsInShare(share, lotSize)).toBe(units)
    expect(percentagePlan({ lotSize, share, acceptanceNumber: 0 }).stages[0]?.sampleSize).toBe(units)
  })

  // Source: scenario of an invented supplier computed in base R: a tenth, none may fail, one unit in 200 or more fails.
  test.each([
    { lotSize: 120, nonconforming: 5, acceptance: 0.585 },
    { lotSize: 1000, nonconforming: 5, acceptance: 0.59 },
    { lotSize: 1000, nonconforming: 10, acceptance: 0.347 },
    { lotSize: 1000, nonconforming: 40, acceptance: 0.0135 },
    { lotSize: 5000, nonconforming: 25, acceptance: 0.0713 },
  ])('a tenth accepts $nonconforming of $lotSize with $acceptance', ({ lotSize, nonconforming, acceptance }) => {
    const plan = percentagePlan({ lotSize, share: 0.1, acceptanceNumber: 0 })
    const exact = acceptanceOfLot(plan, { lotSize, nonconforming })
    expect(Math.abs(exact / acceptance - 1)).toBeLessThan(0.002)
  })

  test('is refused outside 0 to 1', () => {
    expect(() => unitsInShare(1.01, 100)).toThrow('share must be from 0 to 1, not 1.01')
    expect(() => unitsInShare(Number.NaN, 100)).toThrow('share')
  })
})

test('every unit and no unit accept every lot, the one after testing it all', () => {
  const quality = { lotSize: 36, nonconforming: 36 }
  expect(everyUnit(36).stages).toEqual([{ sampleSize: 36, acceptanceNumber: 36, rejectionNumber: 37 }])
  expect(acceptanceOfLot(everyUnit(36), quality)).toBe(1)
  expect(acceptanceOfLot(noTest(), quality)).toBe(1)
  expect(zeroPlan(216).kind).toBe('zero-acceptance')
  expect(() => everyUnit(0)).toThrow('lotSize')
})
