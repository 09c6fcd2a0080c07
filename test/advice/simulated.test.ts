// The advice for a large lot, against lots made and tested one after the other by a fixed seed.
import { describe, expect, test } from 'vitest'
import { alternativesFor } from '../../app/advice/alternatives.ts'
import { assess, price } from '../../app/advice/evaluate.ts'
import { randomFrom } from '../support/random.ts'

const lotSize = 360
const prior = { a: 0.6, b: 28 }
const costs = { test: 160, escape: 9500, rejection: 32000 }
const rounds = 20_000

const { ways } = alternativesFor(
  { lotSize, producer: { nonconforming: 1, risk: 0.05 }, consumer: { nonconforming: 6, risk: 0.1 }, share: 0.1 },
  undefined,
)

/** One lot by Pólya's urn: the chance of the next cord follows from those before it, as under a beta belief. */
function makeLot(random: () => number): boolean[] {
  let found = 0
  return Array.from({ length: lotSize }, (_, made) => {
    const nonconforming = random() < (prior.a + found) / (prior.a + prior.b + made)
    if (nonconforming) found += 1
    return nonconforming
  })
}

describe('the expected cost of a large lot', () => {
  test.each(ways)('$kind: within four standard errors of 20,000 simulated lots', ({ kind, plan, standard }) => {
    const random = randomFrom(7)
    let sum = 0
    let squares = 0
    for (let round = 0; round < rounds; round++) {
      const lot = makeLot(random) // its cords come in no order, so the first ones are a random sample
      let tested = 0
      let found = 0
      let accepted = plan.stages.length === 0
      for (const stage of plan.stages) {
        for (; tested < stage.sampleSize && found < stage.rejectionNumber; tested++) if (lot[tested]) found += 1
        accepted = found <= stage.acceptanceNumber
        if (accepted || found >= stage.rejectionNumber) break
      }
      const left = lot.slice(tested).filter((nonconforming) => nonconforming).length
      const cost = costs.test * tested + (accepted ? costs.escape * left : costs.rejection)
      sum += cost
      squares += cost * cost
    }
    const mean = sum / rounds
    const standardError = Math.sqrt((squares / rounds - mean * mean) / rounds)
    const economicModel = { lotSize, prior, costs, afterRejection: 'return' as const }
    const assessed = assess({ kind, plan, standard }, lotSize, { tooMany: 6, confidence: 0.9, good: 1 })
    const { cost } = price(assessed, economicModel)
    expect(Math.abs(cost.total - mean)).toBeLessThanOrEqual(4 * standardError + 1e-6 * mean)
  })
})
