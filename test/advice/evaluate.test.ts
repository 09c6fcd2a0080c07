// What advice says of a way of testing, against counting every outcome of a small lot in exact fractions.
import { describe, expect, test } from 'vitest'
import { type Alternative, alternativesFor } from '../../app/advice/alternatives.ts'
import { assess, type Protection, price } from '../../app/advice/evaluate.ts'
import { recommend } from '../../app/advice/recommend.ts'
import { type EconomicModel, expectedCost } from '../../app/statistics/economics/expected-cost.ts'
import type { FetchedFirst } from '../../app/statistics/economics/first-fetch.ts'
import type { Stages } from '../../app/statistics/plans/plan.ts'
import { exactAtMost } from '../support/exact.ts'

const lotSize = 12
const prior = { a: 1, b: 3 }
const costs = { test: 2, escape: 45, rejection: 70 }
const protection = { tooMany: 3, confidence: 0.9, good: 1 }

function evaluate(way: Alternative, model: EconomicModel, demanded: Protection, owed?: FetchedFirst) {
  return price(assess(way, model.lotSize, demanded, owed), model, owed)
}

/** Chance of each whole number nonconforming in the lot under the prior: a Pólya urn, multiplied out. */
function chanceOfLot(nonconforming: number): number {
  let chance = choose(lotSize, nonconforming)
  for (let i = 0; i < nonconforming; i++) chance *= prior.a + i
  for (let i = 0; i < lotSize - nonconforming; i++) chance *= prior.b + i
  for (let i = 0; i < lotSize; i++) chance /= prior.a + prior.b + i
  return chance
}

function choose(n: number, k: number): number {
  let ways = 1
  for (let i = 1; i <= k; i++) ways = (ways * (n - k + i)) / i
  return ways
}

/** In a series: the first cords drawn, tested until complete or until so many fail. */
const fetch = { sampleSize: 5, rejectionNumber: 2 }

type Sum = { testing: number; escapes: number; returns: number; accepts: number; tests: number }

/**
 * Walks every order of the lot's cords, one cord after the other, until the plan accepts or its rejection number is found; with a first fetch
 * owed, on until that has ended too.
 */
function counted({ stages }: Stages, after: 'return' | 'screen', owed?: typeof fetch): Sum {
  const first = owed && owed.sampleSize <= (stages.at(-1)?.sampleSize ?? 0) ? owed : undefined
  const sum: Sum = { testing: 0, escapes: 0, returns: 0, accepts: 0, tests: 0 }
  const end = (chance: number, tested: number, left: number, accepted: boolean) => {
    sum.testing += chance * costs.test * tested
    sum.tests += chance * tested
    if (accepted) sum.accepts += chance
    if (accepted) sum.escapes += chance * costs.escape * left
    else if (after === 'return') sum.returns += chance * costs.rejection
    else sum.testing += chance * costs.test * (lotSize - tested)
  }
  /** The verdict is there: what is left of the first fetch is tested. */
  const finish = (chance: number, tested: number, found: number, nonconforming: number, accepted: boolean): void => {
    if (!first || tested >= first.sampleSize || found >= first.rejectionNumber) {
      end(chance, tested, nonconforming - found, accepted)
      return
    }
    const share = (nonconforming - found) / (lotSize - tested)
    if (share > 0) finish(chance * share, tested + 1, found + 1, nonconforming, accepted)
    if (share < 1) finish(chance * (1 - share), tested + 1, found, nonconforming, accepted)
  }
  const walk = (chance: number, tested: number, found: number, nonconforming: number, stage: number): void => {
    const now = stages[stage]
    if (!now) finish(chance, tested, found, nonconforming, true)
    else if (found >= now.rejectionNumber) finish(chance, tested, found, nonconforming, false)
    else if (tested < now.sampleSize) {
      const share = (nonconforming - found) / (lotSize - tested)
      if (share > 0) walk(chance * share, tested + 1, found + 1, nonconforming, stage)
      if (share < 1) walk(chance * (1 - share), tested + 1, found, nonconforming, stage)
    } else if (found <= now.acceptanceNumber) finish(chance, tested, found, nonconforming, true)
    else walk(chance, tested, found, nonconforming, stage + 1)
  }
  for (let nonconforming = 0; nonconforming <= lotSize; nonconforming++)
    walk(chanceOfLot(nonconforming), 0, 0, nonconforming, 0)
  return sum
}

const size = { lotSize, groupSize: 2 }
const { ways } = alternativesFor(
  { ...size, producer: { nonconforming: 1, risk: 0.1 }, consumer: { nonconforming: 6, risk: 0.1 }, share: 0.25 },
  { acceptanceQualityLimit: '4.0', level: 'II', inspection: 'normal' },
)

describe('an assessed way', () => {
  test('every kind of way is among those compared', () => {
    expect(ways.map(({ kind }) => kind)).toEqual([
      'no-test',
      'percentage',
      'zero-acceptance',
      'single',
      'double',
      'groups',
      'standard',
      'every-cord',
    ])
  })

  test.each(ways)(
    '$kind costs and accepts what counting every order of every lot says, whatever follows a rejection',
    (way) => {
      for (const afterRejection of ['return', 'screen'] as const) {
        const { cost, accepts, tests } = evaluate(way, { lotSize, prior, costs, afterRejection }, protection)
        const all = counted(way.plan, afterRejection)
        expect(cost.testing).toBeCloseTo(all.testing, 10)
        expect(cost.escapes).toBeCloseTo(all.escapes, 10)
        expect(cost.returns).toBeCloseTo(all.returns, 10)
        expect(cost.total).toBeCloseTo(all.testing + all.escapes + all.returns, 10)
        expect(accepts).toBeCloseTo(all.accepts, 12)
        expect(tests).toBeCloseTo(all.tests, 10)
      }
    },
  )

  test.each(ways)('$kind in a series costs what counting every order says, with the first fetch to its end', (way) => {
    for (const afterRejection of ['return', 'screen'] as const) {
      const economicModel = { lotSize, prior, costs, afterRejection }
      const { cost, tests } = evaluate(way, economicModel, protection, fetch)
      const all = counted(way.plan, afterRejection, fetch)
      expect(cost.testing).toBeCloseTo(all.testing, 10)
      expect(cost.escapes).toBeCloseTo(all.escapes, 10)
      expect(cost.total).toBeCloseTo(all.testing + all.escapes + all.returns, 10)
      expect(tests).toBeCloseTo(all.tests, 10)
    }
  })

  test('a first fetch is no cost of a way that draws fewer cords, and one of those that may stop before', () => {
    const economicModel = { lotSize, prior, costs, afterRejection: 'return' as const }
    const dearer = ways.filter(
      (way) => evaluate(way, economicModel, protection, fetch).tests > evaluate(way, economicModel, protection).tests,
    )
    expect(dearer.map(({ kind }) => kind)).toEqual(['double', 'groups']) // none allowed draws 3; the others stop no earlier than the fetch
  })

  test.each(ways)(
    '$kind costs the same finished or stopped where the rest of a rejected lot is tested',
    ({ plan, ...way }) => {
      const economicModel = { lotSize, prior, costs, afterRejection: 'screen' as const }
      expect(evaluate({ plan, ...way }, economicModel, protection).cost.total).toBeCloseTo(
        expectedCost(economicModel, plan),
        10,
      )
    },
  )
})

describe('a lot with too many', () => {
  const economicModel = { lotSize, prior, costs, afterRejection: 'return' as const }

  test.each(ways)('$kind: what slips and what is caught are each counted, and make one together', (way) => {
    const { acceptance, rejection } = evaluate(way, economicModel, protection)
    expect(acceptance + rejection).toBeCloseTo(1, 12)
  })

  test('is said never to slip only where it cannot', () => {
    const zero = ways.find(({ kind }) => kind === 'zero-acceptance')
    if (!zero) throw new Error('there is such a way')
    const { sampleSize = 0 } = zero.plan.stages[0] ?? {}
    expect(
      evaluate(zero, economicModel, { tooMany: lotSize - sampleSize + 1, confidence: 0.9, good: 0 }).acceptance,
    ).toBe(0)
    expect(
      evaluate(zero, economicModel, { tooMany: lotSize - sampleSize, confidence: 0.9, good: 0 }).acceptance,
    ).toBeGreaterThan(0)
  })
})

describe('the recommendation', () => {
  const cheapEscapes = { ...costs, escape: 3 }
  const assessed = (confidence: number) =>
    ways.map((way) =>
      evaluate(
        way,
        { lotSize, prior, costs: cheapEscapes, afterRejection: 'return' },
        { tooMany: 3, confidence, good: 1 },
      ),
    )

  test('demanded protection comes before cost, and its price is the difference', () => {
    const all = assessed(0.9)
    const { chosen, cheapest, because, priceOfProtection } = recommend(all, { critical: false })
    expect(cheapest.protects).toBe(false)
    expect(because).toBe('protection')
    for (const way of all.filter(({ protects }) => protects))
      expect(way.cost.total).toBeGreaterThanOrEqual(chosen.cost.total)
    for (const way of all) expect(way.cost.total).toBeGreaterThanOrEqual(cheapest.cost.total)
    expect(priceOfProtection).toBe(chosen.cost.total - cheapest.cost.total)
  })

  test('a contract decides how a lot that went back is inspected again, where its plan protects; a critical item before it', () => {
    const named = (protects: boolean) =>
      assessed(0.9).map((way) =>
        way.kind === 'zero-acceptance' ? { ...way, kind: 'standard' as const, protects } : way,
      )
    const all = named(true)
    const { chosen, because } = recommend(all, { critical: false, tightened: true })
    expect([chosen.kind, because]).toEqual(['standard', 'resubmitted'])
    const unbound = recommend(named(false), { critical: false, tightened: true })
    expect([unbound.chosen.protects, unbound.because]).toEqual([true, 'protection'])
    const whole = recommend(all, { critical: true, tightened: true })
    expect([whole.chosen.kind, whole.because]).toEqual(['every-cord', 'critical'])
  })

  test('a way protects only where it lets no more through than the plan that a contract demands', () => {
    const [way] = assessed(0.1).filter(({ acceptance, protects }) => protects && acceptance > 0)
    if (!way) throw new Error('no sample protects')
    const model: EconomicModel = { lotSize, prior, costs, afterRejection: 'return' }
    const under = (mostAcceptance: number) =>
      evaluate(way, model, { tooMany: 3, confidence: 0.1, good: 1, mostAcceptance }).protects
    expect([under(way.acceptance), under(way.acceptance * 0.999)]).toEqual([true, false])
  })

  test('where the cheapest way protects enough, cost decides', () => {
    const dear = ways.map((way) => evaluate(way, { lotSize, prior, costs, afterRejection: 'return' }, protection))
    expect(recommend(dear, { critical: false })).toMatchObject({ because: 'cost', priceOfProtection: 0 })
  })

  test('a critical item is always tested whole', () => {
    expect(recommend(assessed(0.9), { critical: true })).toMatchObject({
      because: 'critical',
      chosen: { kind: 'every-cord' },
    })
  })
})

describe('a good lot', () => {
  // C(12 − D, 5) ÷ C(12, 5) and its neighbours in whole numbers, none of the engine's; every cord tested sends back no lot as a whole.
  test.each([
    { good: 0, allowed: 0 },
    { good: 1, allowed: 0 },
    { good: 2, allowed: 1 },
  ])('with $good is rejected where $allowed are allowed as often as whole numbers say', ({ good, allowed }) => {
    const plan = {
      kind: 'single',
      stages: [{ sampleSize: 5, acceptanceNumber: allowed, rejectionNumber: allowed + 1 }],
    }
    const way = assess({ kind: 'single', plan, standard: undefined }, lotSize, { ...protection, good })
    const accepted = exactAtMost({ N: lotSize, D: good, n: 5, c: allowed })
    expect(way.acceptanceOfGood).toBeCloseTo(accepted, 12)
    expect(way.rejectionOfGood).toBeCloseTo(1 - accepted, 12)
  })

  test('is never rejected whole where every cord is tested', () => {
    const plan = { kind: 'every', stages: [{ sampleSize: 12, acceptanceNumber: 12, rejectionNumber: 13 }] }
    const way = assess({ kind: 'every-cord', plan, standard: undefined }, lotSize, protection)
    expect([way.rejectionOfGood, way.acceptanceOfGood]).toEqual([0, 1])
  })
})
