// The programs of examples/ say what they said, and what they say agrees with sources outside.
import { afterEach, expect, test, vi } from 'vitest'

afterEach(() => vi.restoreAllMocks())

async function printedBy(program: () => Promise<unknown>): Promise<string[]> {
  const log = vi.spyOn(console, 'log').mockImplementation(() => {})
  await program()
  return log.mock.calls.map(([line]) => String(line))
}

test('plan: the first sample size at or below 0.05', async () => {
  // Source: C(480 − n, 5) ÷ C(480, 5), by whole numbers: 216 gives 0.0495, 215 gives 0.0504.
  expect(await printedBy(() => import('../../examples/plan.ts'))).toEqual([
    'Test 216 of 480, accept if none is found.',
    'A lot with 5 slips through with chance 0.0495.',
  ])
})

test('bound: of the lot by the hypergeometric law, of the process by Clopper and Pearson', async () => {
  // Source: 1 − 0.05^(1/48) = 0.0605 for the process; C(480 − D, 48) ÷ C(480, 48) above 0.05 up to D = 27.
  expect(await printedBy(() => import('../../examples/bound.ts'))).toEqual([
    'None found in 48 of 480: up to 27 could be nonconforming.',
    'The process may make up to 6.05 in 100.',
  ])
})

test('curve: from 100 down', async () => {
  // Source: C(480 − D, 48) ÷ C(480, 48); one nonconforming cord is missed 9 times in 10.
  expect(await printedBy(() => import('../../examples/curve.ts'))).toEqual([
    '0: accepted 100.0 times in 100',
    '1: accepted 90.0 times in 100',
    '5: accepted 58.9 times in 100',
    '12: accepted 27.8 times in 100',
    '24: accepted 7.5 times in 100',
    '48: accepted 0.5 times in 100',
  ])
})

test('draw: the first published picks', async () => {
  // Source: R. L. Rivest, reference procedure for drawing an audit sample, 14 Nov 2011.
  expect(await printedBy(() => import('../../examples/draw.ts'))).toEqual([
    'In the order drawn: 740, 180, 264, 789, 238, 448',
    'In the order of the cartons: 180, 238, 264, 448, 740, 789',
  ])
})
