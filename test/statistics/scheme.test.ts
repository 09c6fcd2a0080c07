// The chain of the switching rules against closed forms and a simulation.
import { describe, expect, test } from 'vitest'
import { acceptanceOfProcess, averageSampleSizeOfProcess } from '../../app/statistics/plans/measures.ts'
import { type StandardPlan, tablePlan } from '../../app/statistics/plans/standard.ts'
import type { CodeLetter } from '../../app/statistics/plans/tables/table.ts'
import { type SwitchedScheme, schemePerformance } from '../../app/statistics/scheme.ts'
import { afterLot, type Edition, resumed, scoreOfSingle, startOfSeries } from '../../app/statistics/switching.ts'
import { randomFrom } from '../support/random.ts'

function schemeOf(codeLetter: CodeLetter, edition: Edition, reducedWanted: boolean): SwitchedScheme {
  const position = { codeLetter, acceptanceQualityLimit: '1.0', sampling: 'single' } as const
  return {
    plans: {
      normal: tablePlan({ ...position, inspection: 'normal' }),
      tightened: tablePlan({ ...position, inspection: 'tightened' }),
      reduced: tablePlan({ ...position, inspection: 'reduced' }),
    },
    acceptanceQualityLimit: '1.0',
    edition,
    reducedWanted,
  }
}

describe('without reduced inspection', () => {
  // Closed forms, by renewal at each lot not accepted: a spell of normal inspection lasts (1/q)(1 + 1/(1 − (1 − q)⁴)) lots, q the
  // chance not to be accepted; five in a row under tightened take (1 − a⁵)/((1 − a) a⁵), a the chance to be accepted.
  test.each([0.001, 0.01, 0.02, 0.03, 0.06])('the shares of both severities at %d', (fraction) => {
    const scheme = schemeOf('K', '105E', false)
    const q = 1 - acceptanceOfProcess(scheme.plans.normal.plan, fraction)
    const a = acceptanceOfProcess(scheme.plans.tightened.plan, fraction)
    const onNormal = (1 / q) * (1 + 1 / (1 - (1 - q) ** 4))
    const onTightened = (1 - a ** 5) / ((1 - a) * a ** 5)
    const { acceptance, averageSampleSize, share } = schemePerformance(scheme, fraction)
    expect(share.normal).toBeCloseTo(onNormal / (onNormal + onTightened), 10)
    expect(share.reduced).toBe(0)
    expect(acceptance).toBeCloseTo(share.normal * (1 - q) + share.tightened * a, 12)
    expect(averageSampleSize).toBeCloseTo(125, 10)
  })

  test('lots until the series is discontinued', () => {
    // Nothing is ever accepted: two lots on normal and five on tightened inspection.
    const scheme = schemeOf('K', '105E', false)
    expect(schemePerformance(scheme, 1)).toMatchObject({ acceptance: 0, lotsUntilDiscontinued: 7 })
    expect(schemePerformance(scheme, 0)).toMatchObject({
      acceptance: 1,
      lotsUntilDiscontinued: Number.POSITIVE_INFINITY,
    })
  })
})

describe('with reduced inspection', () => {
  test('a perfect supplier ends on reduced inspection for good', () => {
    for (const edition of ['105E', '1999'] as const)
      expect(schemePerformance(schemeOf('K', edition, true), 0)).toEqual({
        acceptance: 1,
        averageSampleSize: 50,
        share: { normal: 0, tightened: 0, reduced: 1 },
        lotsUntilDiscontinued: Number.POSITIVE_INFINITY,
      })
  })

  // A simulation of 400,000 lots with a fixed seed; its standard error is below 0.003 for the shares, 0.2 for the sample size.
  test.each([
    { letter: 'K', edition: '1999', fraction: 0.01 },
    { letter: 'K', edition: '105E', fraction: 0.01 },
    { letter: 'J', edition: '1999', fraction: 0.006 },
    { letter: 'H', edition: '1999', fraction: 0.01 },
  ] as const)(
    'letter $letter by $edition at $fraction agrees with a simulated series',
    ({ letter, edition, fraction }) => {
      const scheme = schemeOf(letter, edition, true)
      const simulated = simulate(scheme, fraction, 400_000)
      const exact = schemePerformance(scheme, fraction)
      for (const severity of ['normal', 'tightened', 'reduced'] as const)
        expect(Math.abs(exact.share[severity] - simulated.share[severity])).toBeLessThan(0.012)
      expect(Math.abs(exact.acceptance - simulated.acceptance)).toBeLessThan(0.004)
      expect(Math.abs(exact.averageSampleSize - simulated.averageSampleSize)).toBeLessThan(0.8)
    },
  )

  test('accepts less the worse the process, and lies between its plans', () => {
    const scheme = schemeOf('K', '1999', true)
    let before = 1
    for (let i = 1; i <= 60; i++) {
      const { acceptance, averageSampleSize, share } = schemePerformance(scheme, i / 1000)
      expect(acceptance).toBeLessThanOrEqual(before)
      expect(share.normal + share.tightened + share.reduced).toBeCloseTo(1, 12)
      const sizes = Object.values(scheme.plans).map(({ plan }) => averageSampleSizeOfProcess(plan, i / 1000))
      expect(averageSampleSize).toBeGreaterThanOrEqual(Math.min(...sizes) - 1e-9)
      expect(averageSampleSize).toBeLessThanOrEqual(Math.max(...sizes) + 1e-9)
      before = acceptance
    }
  })

  test('a fraction outside 0 to 1 is refused', () => {
    expect(() => schemePerformance(schemeOf('K', '1999', true), 1.01)).toThrow('fraction')
  })
})

/** A series of lots drawn unit by unit with a generator from a fixed seed. */
function simulate({ plans, edition }: SwitchedScheme, fraction: number, lots: number) {
  const random = randomFrom(20261125)
  let state = startOfSeries
  let accepted = 0
  let tested = 0
  const counts = { normal: 0, tightened: 0, reduced: 0 }
  for (let i = 0; i < lots; i++) {
    if (state.inspection === 'discontinued') throw new Error('a discontinued series was not resumed')
    const plan = plans[state.inspection]
    const { sampleSize, acceptanceNumber } = plan.plan.stages[0]!
    let found = 0
    // Geometric gaps between nonconforming units: as many draws as units are nonconforming.
    for (let at = gap(random, fraction); at < sampleSize; at += 1 + gap(random, fraction)) found += 1
    counts[state.inspection] += 1
    tested += sampleSize
    if (found <= acceptanceNumber) accepted += 1
    const lot = {
      original: true,
      accepted: found <= acceptanceNumber,
      inGap: found <= acceptanceNumber && found > plan.staysUpTo,
      score: state.inspection === 'normal' ? scoreOf(plan, found) : 0,
      steady: true,
      reducedWanted: true,
      withinLimitNumber: true,
    } as const
    state = resumed(afterLot(state, lot, edition))
  }
  const share = { normal: counts.normal / lots, tightened: counts.tightened / lots, reduced: counts.reduced / lots }
  return { acceptance: accepted / lots, averageSampleSize: tested / lots, share }
}

function scoreOf(plan: StandardPlan, found: number) {
  const acceptanceNumber = plan.plan.stages[0]!.acceptanceNumber
  return scoreOfSingle({ found, acceptanceNumber, tighterAcceptanceNumber: Math.max(0, acceptanceNumber - 1) })
}

function gap(random: () => number, fraction: number): number {
  return Math.floor(Math.log1p(-random()) / Math.log1p(-fraction))
}
