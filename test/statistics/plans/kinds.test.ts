// The list of kinds: each makes a plan of its own name that every measure can read.
import { describe, expect, test } from 'vitest'
import { kinds } from '../../../app/statistics/plans/kinds.ts'
import { acceptanceOfLot, averageSampleSizeOfLot } from '../../../app/statistics/plans/measures.ts'
import { checkStages } from '../../../app/statistics/plans/plan.ts'

const requirements = {
  lotSize: 480,
  producer: { nonconforming: 5, risk: 0.05 },
  consumer: { nonconforming: 24, risk: 0.1 },
  share: 0.1,
}
const forBothRisks = ['single', 'double', 'multiple', 'groups', 'sequential']

describe.each(Object.entries(kinds))('%s', (kind, planOf) => {
  const plan = planOf(requirements)

  test('is a plan of its name for the lot', () => {
    expect(plan.kind).toBe(kind)
    checkStages(plan, requirements.lotSize)
  })

  test('keeps the risks that it is made for', () => {
    const bad = acceptanceOfLot(plan, { lotSize: requirements.lotSize, nonconforming: 24 })
    const good = acceptanceOfLot(plan, { lotSize: requirements.lotSize, nonconforming: 5 })
    if (kind === 'zero-acceptance' || forBothRisks.includes(kind)) expect(bad).toBeLessThanOrEqual(0.1)
    if (forBothRisks.includes(kind)) expect(good).toBeGreaterThanOrEqual(0.95)
    expect(averageSampleSizeOfLot(plan, { lotSize: requirements.lotSize, nonconforming: 5 })).toBeLessThanOrEqual(
      requirements.lotSize,
    )
  })
})
