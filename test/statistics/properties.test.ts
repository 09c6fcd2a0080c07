// What must hold for plans and designs whatever their numbers.
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import * as hypergeometric from '../../app/statistics/distributions/hypergeometric.ts'
import { acceptanceCurveOfLot } from '../../app/statistics/plans/curve.ts'
import {
  acceptanceOfLot,
  acceptanceOfProcess,
  averageSampleSizeOfLot,
  curtailedSampleSizeOfLot,
} from '../../app/statistics/plans/measures.ts'
import type { Stages } from '../../app/statistics/plans/plan.ts'
import { designSingleForLot } from '../../app/statistics/plans/single.ts'
import { designZeroForLot } from '../../app/statistics/plans/zero.ts'

const runs = { seed: 20261125, numRuns: 300 }
const share = fc.double({ min: 0, max: 1, noNaN: true })

/** A lot of up to 300 and a plan for it of up to four stages, also odd ones: empty stages, stages that cannot accept. */
const lotAndPlan = fc
  .record({
    lotSize: fc.integer({ min: 1, max: 300 }),
    parts: fc.array(fc.record({ sample: share, accept: share, gap: fc.integer({ min: 1, max: 6 }) }), {
      minLength: 1,
      maxLength: 4,
    }),
  })
  .map(({ lotSize, parts }) => {
    const sizes = parts.map(({ sample }) => Math.round(sample * lotSize)).sort((first, second) => first - second)
    const stages = parts.map(({ accept, gap }, i) => {
      const acceptanceNumber = Math.floor(accept ** 3 * 12) - 1
      const rejectionNumber = acceptanceNumber + (i === parts.length - 1 ? 1 : gap)
      return { sampleSize: sizes[i] ?? 0, acceptanceNumber, rejectionNumber }
    })
    return { lotSize, plan: { stages } }
  })

describe('a plan', () => {
  test('accepts a worse lot no more often than a better one', () => {
    fc.assert(
      fc.property(lotAndPlan, ({ lotSize, plan }) => {
        const curve = acceptanceCurveOfLot(plan, lotSize)
        for (let D = 0; D < lotSize; D++)
          expect((curve[D + 1] ?? Number.NaN) <= (curve[D] ?? Number.NaN) * (1 + 1e-12)).toBe(true)
      }),
      runs,
    )
  })

  test('has one acceptance, by the whole curve, for one lot and by counting', () => {
    fc.assert(
      fc.property(lotAndPlan, share, ({ lotSize, plan }, part) => {
        const nonconforming = Math.round(part * lotSize)
        const one = acceptanceOfLot(plan, { lotSize, nonconforming })
        const onCurve = acceptanceCurveOfLot(plan, lotSize)[nonconforming] ?? Number.NaN
        expect(Math.abs(onCurve - one)).toBeLessThanOrEqual(1e-11 * one)
        expect(Math.abs(counted(plan, lotSize, nonconforming) - one)).toBeLessThan(1e-11)
      }),
      runs,
    )
  })

  test('accepts a worse process no more often, and curtailing never tests more', () => {
    fc.assert(
      fc.property(lotAndPlan, share, share, ({ lotSize, plan }, first, second) => {
        const [better, worse] = first < second ? [first, second] : [second, first]
        const atBetter = acceptanceOfProcess(plan, better)
        expect(acceptanceOfProcess(plan, worse)).toBeLessThanOrEqual(atBetter * (1 + 1e-12) + 1e-300)
        const quality = { lotSize, nonconforming: Math.round(first * lotSize) }
        const curtailed = curtailedSampleSizeOfLot(plan, quality)
        expect(curtailed).toBeLessThanOrEqual(averageSampleSizeOfLot(plan, quality) * (1 + 1e-12))
      }),
      runs,
    )
  })
})

describe('a design', () => {
  test('is the smallest that meets both risks: no smaller sample does, with any acceptance number', () => {
    const risk = fc.double({ min: 0.005, max: 0.3, noNaN: true })
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 120 }), share, share, risk, risk, (lotSize, first, second, alpha, beta) => {
        const good = Math.floor(first * (lotSize - 1))
        const bad = good + 1 + Math.floor(second * (lotSize - good - 1))
        const producer = { nonconforming: good, risk: alpha }
        const consumer = { nonconforming: bad, risk: beta }
        const meets = (sampleSize: number, found: number) =>
          hypergeometric.moreThan(found, { lotSize, nonconforming: good, sampleSize }) <= alpha * (1 + 1e-12) &&
          hypergeometric.atMost(found, { lotSize, nonconforming: bad, sampleSize }) <= beta * (1 + 1e-12)
        const smallest = firstOf(lotSize, good, meets)
        expect(designSingleForLot({ lotSize, producer, consumer })).toEqual(smallest)
      }),
      runs,
    )
  })

  test('of a zero plan leaves one unit less above the risk', () => {
    const risk = fc.double({ min: 1e-6, max: 0.9, noNaN: true })
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000_000 }), share, risk, (lotSize, part, chance) => {
        const nonconforming = Math.max(1, Math.round(part ** 8 * lotSize))
        const sampleSize = designZeroForLot({ lotSize, nonconforming, risk: chance })
        const missed = (n: number) => hypergeometric.density(0, { lotSize, nonconforming, sampleSize: n })
        expect(missed(sampleSize)).toBeLessThanOrEqual(chance * (1 + 1e-11))
        if (sampleSize > 0) expect(missed(sampleSize - 1)).toBeGreaterThan(chance * (1 - 1e-11))
      }),
      runs,
    )
  })
})

/** Acceptance by following every count of nonconforming units from stage to stage. */
function counted({ stages }: Stages, lotSize: number, nonconforming: number): number {
  let undecided = new Map([[0, 1]])
  let tested = 0
  let acceptance = 0
  for (const { sampleSize, acceptanceNumber, rejectionNumber } of stages) {
    const next = new Map<number, number>()
    for (const [found, chance] of undecided)
      for (let more = 0; more <= sampleSize - tested; more++) {
        const rest = {
          lotSize: lotSize - tested,
          nonconforming: nonconforming - found,
          sampleSize: sampleSize - tested,
        }
        const reached = chance * hypergeometric.density(more, rest)
        const total = found + more
        if (total <= acceptanceNumber) acceptance += reached
        else if (total < rejectionNumber && reached > 0) next.set(total, (next.get(total) ?? 0) + reached)
      }
    undecided = next
    tested = sampleSize
  }
  return acceptance
}

/** The first pair, by sample size and then acceptance number, for which something holds; testing every unit always does. */
function firstOf(lotSize: number, good: number, meets: (sampleSize: number, acceptanceNumber: number) => boolean) {
  for (let sampleSize = 0; sampleSize < lotSize; sampleSize++)
    for (let acceptanceNumber = 0; acceptanceNumber <= sampleSize; acceptanceNumber++)
      if (meets(sampleSize, acceptanceNumber)) return { sampleSize, acceptanceNumber }
  return { sampleSize: lotSize, acceptanceNumber: good }
}
