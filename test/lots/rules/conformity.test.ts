// The judging of one cord by its item's terms.

import { describe, expect, test } from 'vitest'
import { assessConformity } from '../../../app/lots/rules/conformity.ts'
import type { InspectionResult } from '../../../app/terms/cord.ts'
import type { DecisionRule } from '../../../app/terms/item.ts'
import { findingSentence } from '../../../views/words/findings.ts'

const accurateTo = (accuracy: string, marginalPolicy: DecisionRule) => ({
  marginalPolicy,
  crosstalkAccuracy: accuracy,
  returnLossAccuracy: accuracy,
})

type Case = {
  crosstalk?: string
  returnLoss?: string
  wireMap?: InspectionResult
  visual?: InspectionResult
  accuracy?: string
  state: 'conforms' | 'marginal' | 'does-not-conform'
  strict: boolean
  lenient: boolean
  source: string
}

const trade = 'common practice, no source: the trade’s own figures'
const rule = 'the rule as the buyer states it'
const cases: Case[] = [
  { crosstalk: '3.2', returnLoss: '-0.2', state: 'does-not-conform', strict: true, lenient: true, source: trade },
  { crosstalk: '0.4', returnLoss: '3.2', state: 'marginal', strict: true, lenient: false, source: trade },
  { crosstalk: '2.4', returnLoss: '3.2', state: 'conforms', strict: false, lenient: false, source: trade },
  { crosstalk: '-0.04', returnLoss: '5', state: 'does-not-conform', strict: true, lenient: true, source: rule },
  { crosstalk: '0', returnLoss: '5', state: 'marginal', strict: true, lenient: false, source: rule },
  { crosstalk: '-0.0', returnLoss: '5', state: 'marginal', strict: true, lenient: false, source: rule },
  {
    crosstalk: '1.000',
    returnLoss: '5',
    accuracy: '1',
    state: 'conforms',
    strict: false,
    lenient: false,
    source: rule,
  },
  {
    crosstalk: '0.99999999999999999',
    returnLoss: '5',
    accuracy: '1',
    state: 'marginal',
    strict: true,
    lenient: false,
    source: 'exact decimals: as a binary fraction it is 1',
  },
  {
    crosstalk: '-0.00000000000000001',
    returnLoss: '5',
    accuracy: '0',
    state: 'does-not-conform',
    strict: true,
    lenient: true,
    source: rule,
  },
  { crosstalk: '0', returnLoss: '0', accuracy: '0', state: 'conforms', strict: false, lenient: false, source: rule },
  {
    crosstalk: '0.3',
    returnLoss: '-1.2',
    state: 'does-not-conform',
    strict: true,
    lenient: true,
    source: 'a cord is its worst',
  },
  {
    crosstalk: '4',
    returnLoss: '4',
    wireMap: 'at-fault',
    state: 'does-not-conform',
    strict: true,
    lenient: true,
    source: rule,
  },
  { visual: 'at-fault', state: 'does-not-conform', strict: true, lenient: true, source: rule },
  {
    crosstalk: '4',
    state: 'does-not-conform',
    strict: true,
    lenient: true,
    source: 'no reading is not a conforming reading',
  },
]

describe('a cord', () => {
  test.each(cases)(
    'with crosstalk $crosstalk, return loss $returnLoss, wire map $wireMap, visual $visual at ±$accuracy dB: $state ($source)',
    ({
      crosstalk,
      returnLoss,
      wireMap = 'in-order',
      visual = 'in-order',
      accuracy = '1.0',
      state,
      strict,
      lenient,
    }) => {
      const reading = { crosstalkMargin: crosstalk, returnLossMargin: returnLoss, wireMap, visual }
      expect(assessConformity(reading, accurateTo(accuracy, 'strict'))).toMatchObject({ state, nonconforming: strict })
      expect(assessConformity(reading, accurateTo(accuracy, 'lenient'))).toMatchObject({
        state,
        nonconforming: lenient,
      })
    },
  )

  test('says why in the item’s own rule, a sentence a finding', () => {
    const reading = {
      crosstalkMargin: '0.70',
      returnLossMargin: '-0.6',
      wireMap: 'in-order',
      visual: 'at-fault',
    } as const
    expect(assessConformity(reading, accurateTo('1.5', 'strict')).findings.map(findingSentence)).toEqual([
      'The visual inspection is at fault.',
      'Crosstalk is 0.70 dB above the limit, within the tester’s ±1.5 dB: marginal, which this item counts as a cord that does not conform.',
      'Return loss is 0.6 dB short of the limit.',
    ])
  })

  test('is judged by each parameter’s own accuracy', () => {
    const terms = { marginalPolicy: 'strict', crosstalkAccuracy: '0.5', returnLossAccuracy: '2' } as const
    const clear = { wireMap: 'in-order', visual: 'in-order' } as const
    expect(assessConformity({ crosstalkMargin: '0.6', returnLossMargin: '2', ...clear }, terms).state).toBe('conforms')
    expect(assessConformity({ crosstalkMargin: '2', returnLossMargin: '0.6', ...clear }, terms).state).toBe('marginal')
  })

  test('with a margin that is no decimal is refused, not judged', () => {
    const reading = { crosstalkMargin: 'NaN', returnLossMargin: '1', wireMap: 'in-order', visual: 'in-order' } as const
    expect(() => assessConformity(reading, accurateTo('1', 'strict'))).toThrow(RangeError)
  })
})

// Common practice, no source: of a pack of ten with 8 clear fails, 1 marginal and 1 clean, 9 count under strict and 8 under lenient.
test.each([
  { policy: 'strict', count: 9 },
  { policy: 'lenient', count: 8 },
] as const)('a pack of ten counts $count under $policy', ({ policy, count }) => {
  const margins = ['-3.1', '-0.2', '-6', '-1.4', '-2.2', '-0.9', '-4.5', '-0.01', '0.4', '2.4']
  const judged = margins.map((crosstalkMargin) =>
    assessConformity(
      { crosstalkMargin, returnLossMargin: '3.2', wireMap: 'in-order', visual: 'in-order' },
      accurateTo('1.0', policy),
    ),
  )
  expect(judged.filter((cord) => cord.nonconforming)).toHaveLength(count)
})
