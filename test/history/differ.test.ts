// When finished lots are said to differ, and when they cannot tell: published tables' values and lots that stop at once.
import { describe, expect, test } from 'vitest'
import { differenceOf } from '../../app/history/differ.ts'
import type { FinishedLot } from '../../app/history/finished.ts'
import { nextHolds } from '../../app/history/next-holds.ts'

/** "3/50": all 50 tested. "1/1<50r1": stopped at its first, of 50. "0/50r1": clean under a rule of one. */
function lotsOf(said: string): FinishedLot[] {
  return said.split(' ').map((lot, at) => {
    const [, found, tested, sampleSize, rule] = /^(\d+)\/(\d+)(?:<(\d+))?(?:r(\d+))?$/.exec(lot) ?? []
    const counts = { found: Number(found), tested: Number(tested), sampleSize: Number(sampleSize ?? tested) }
    const rejectionNumber = rule === undefined ? undefined : Number(rule)
    return { lotId: at + 1, size: 3000, ...counts, rejectionNumber, staged: false, at: undefined }
  })
}
const times = (number: number, lot: string) => Array.from({ length: number }, () => lot).join(' ')

describe('given how many were tested and found in all', () => {
  // R 4.2.2, fisher.test, two-sided by probability; the third under its rule of stopping has one outcome alone
  test.each([
    { lots: '0/240 40/264', kind: 'differ', chance: 2.35554431221e-12 },
    { lots: '0/288 2/300 6/288 15/240', kind: 'differ', chance: 1.48036612e-6 },
    { lots: '0/288 2/300 6/288', kind: 'not shown', chance: 0.0230707754689 },
    { lots: '1/60 8/60', kind: 'not shown', chance: 0.032190293467255195 },
  ] as const)('$lots: $kind', ({ lots, kind, chance }) => {
    const said = differenceOf(lotsOf(lots))
    if (said.kind === 'cannot tell') throw new Error(said.why)
    expect(said).toMatchObject({ kind, by: 'totals', error: undefined })
    expect(Math.abs(said.chance / chance - 1)).toBeLessThan(1e-8)
  })
})

describe('where every lot stops at its first nonconforming cord', () => {
  test.each([
    {
      name: 'ten clean ones and ten that stopped at once differ',
      lots: `${times(10, '0/216r1')} ${times(10, '1/1<216r1')}`,
      kind: 'differ',
    },
    {
      name: 'of nineteen clean ones and one that stopped at once it is not shown',
      lots: `${times(19, '0/50r1')} 1/1<50r1`,
      kind: 'not shown',
    },
  ])('$name', ({ lots, kind }) => {
    expect(differenceOf(lotsOf(lots))).toMatchObject({ kind, by: 'every fraction', lots: 20 })
  })
})

describe('cannot tell', () => {
  test.each([
    { lots: '3/50', why: 'one lot' },
    { lots: '0/50 0/300', why: 'all the same' },
    { lots: '0/60 1/60', why: 'too few cords' }, // whichever lot had it: 1 of 2
    { lots: '0/50 0/50 3/50', why: 'too few cords' }, // all three in one of them: C(50, 3) ÷ C(150, 3) = .0355 at the least
    { lots: '0/60 6/60', why: 'too few cords' }, // C(60, 6) ÷ C(120, 6) = .0137
  ])('$lots: $why', ({ lots, why }) => expect(differenceOf(lotsOf(lots))).toMatchObject({ kind: 'cannot tell', why }))
})

test('a lot in several samples is left out, and said so', () => {
  const [first, ...more] = lotsOf('0/240 40/264 9/100')
  const lots = [...more, ...(first ? [{ ...first, staged: true }] : [])]
  expect(differenceOf(lots)).toMatchObject({ lots: 2, leftOut: 1 })
})

test('more than the exact test may go through are asked for every fraction', () => {
  const lots = lotsOf(Array.from({ length: 20 }, (_, at) => `${(at * 13) % 9}/${200 + 7 * at}`).join(' '))
  expect(differenceOf(lots)).toMatchObject({ by: 'every fraction' })
})

test('what the next lot will hold is said from five finished lots on', () => {
  expect(nextHolds(lotsOf('0/240 2/240 1/240 0/240'), 480)).toBeUndefined()
  const lots = lotsOf('0/240 8/240 1/240 20/240 3/240')
  const holds = nextHolds(lots, 480)
  expect(holds).toMatchObject({ size: 480, lots: 5, confidence: 0.95 })
  if (!holds) throw new Error('five lots are enough')
  expect(holds.lower).toBeLessThan(holds.mean)
  expect(holds.upper).toBeGreaterThan(holds.mean)
})
