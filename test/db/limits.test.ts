// The limits that forms and verbs share, against the checks of the database: two homes of one number, held alike.
import { expect, test } from 'vitest'
import { largestCost, largestGroup, largestLot, lengths, smallestGroup, widestMargin } from '../../app/kit/limits.ts'
import { freshDatabase } from '../support/database.ts'

const { owner } = await freshDatabase()

test.each([
  ['lots_size', `>= 1) AND (size <= ${largestLot})`],
  ['lots_announced_size', `>= 1) AND (announced_size <= ${largestLot})`],
  ['items_name_length', `<= ${lengths.name}`],
  ['suppliers_name_length', `<= ${lengths.name}`],
  ...['items', 'lots', 'plans'].flatMap((table): [string, string][] => [
    [`${table}_clause`, `<= ${lengths.clauseNumber}`],
    [`${table}_clause`, `<= ${lengths.clauseText}`],
  ]),
  ['items_group_size', `>= ${smallestGroup}) AND (group_size <= ${largestGroup})`],
  ['plans_group_size', `>= ${smallestGroup}) AND (group_size <= ${largestGroup})`],
  ['lots_declared_sorting', `<= ${lengths.reason}`],
  [
    'results_margins_in_range',
    `>= ('-${widestMargin}'::integer)::numeric) AND (crosstalk_margin <= (${widestMargin})::numeric`,
  ],
])('%s holds the same number', async (name, wanted) => {
  const [check] = await owner`select pg_get_constraintdef(oid) as text from pg_constraint where conname = ${name}`
  expect(check?.text).toContain(wanted)
})

test('a cost of the largest size fits its column', async () => {
  const [row] = await owner`select ${largestCost}::int::text as kept`
  expect(row?.kept).toBe(String(largestCost))
})
