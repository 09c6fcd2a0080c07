// Run lengths of cumulative sums of measured values.
import { expect, test } from 'vitest'
import { z } from 'zod'
import { normalCusumRunLength } from '../../../app/statistics/history/cusum-of-margins.ts'
import { publishedRows } from '../../published/rows.ts'

// Montgomery, Introduction to Statistical Quality Control, table 9.3 (from memory), recomputed by Page's equation elsewhere.
test.each(
  publishedRows(
    'normal-cusum',
    z.object({ k: z.number(), h: z.number(), shift: z.array(z.number()) }),
    z.object({ twoSided: z.array(z.number()), oneSidedInControl: z.number() }),
  ),
)('$id: measured values, both sides together', ({ input: { k, h, shift }, recomputed }) => {
  const length = (towards: number) => normalCusumRunLength({ reference: k, limit: h, shift: towards })
  close(length(0), recomputed.oneSidedInControl, 1e-9)
  for (const [i, each] of shift.entries())
    close(1 / (1 / length(each) + 1 / length(-each)), recomputed.twoSided[i]!, 1e-9)
})

test('bad arguments are refused by name', () => {
  expect(() => normalCusumRunLength({ reference: -1, limit: 4, shift: 0 })).toThrow('reference')
  expect(() => normalCusumRunLength({ reference: 0.5, limit: 0, shift: 0 })).toThrow('limit')
  expect(() => normalCusumRunLength({ reference: 0.5, limit: 4, shift: Number.NaN })).toThrow('shift')
})

function close(actual: number, wanted: number, within: number): void {
  expect(Math.abs(actual / wanted - 1), `${actual} for ${wanted}`).toBeLessThanOrEqual(within)
}
