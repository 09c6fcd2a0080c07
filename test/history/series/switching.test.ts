// The inspection state of a series, computed from lots decided through the domain's own verbs.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { switchingOf } from '../../../app/history/series/inspection.ts'
import { noteSeries } from '../../../app/history/series/note.ts'
import { type DecisionChoice, decideLot } from '../../../app/lots/acts/decide.ts'
import { freshDatabase } from '../../support/database.ts'
import { drawnLot, recordAll, signature, type Wanted } from '../../support/lot.ts'
import { threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { manager } = three

type Series = { supplierId: number; itemId: number }

/** One more decided lot: of 24 cords, 6 tested, at most 1 may fail. The first lot makes the series, the others join it. */
async function decided(found: number, choice: DecisionChoice, series?: Series, wanted: Wanted = {}): Promise<Series> {
  const lotId = await drawnLot(db, three, wanted)
  await recordAll(db, three, lotId, found)
  if (series) {
    const { supplierId, itemId } = series
    await owner`update lots set supplier_id = ${supplierId}, item_id = ${itemId} where id = ${lotId}`
  }
  await decideLot(db, manager, lotId, { ...(await signature(db, lotId, 'for the test')), ...choice })
  const [lot] = await owner<
    [Series]
  >`select supplier_id as "supplierId", item_id as "itemId" from lots where id = ${lotId}`
  return lot
}
const accepted = (series?: Series) => decided(0, { outcome: 'accepted' }, series)
const rejected = (series?: Series) => decided(2, { outcome: 'returned' }, series)
const note = (
  series: Series,
  kind: 'supplier-acted' | 'reduced-wanted' | 'reduced-ended',
  reason = 'seen on a visit',
) => noteSeries(db, manager, series.supplierId, { key: randomUUID(), itemId: series.itemId, kind, reason })

describe('the inspection state of a series', () => {
  test('begins as normal, and a new supplier has no lots that count', async () => {
    const series = await accepted()
    expect(await switchingOf(db, { ...series, itemId: 999_999 })).toMatchObject({
      state: { inspection: 'normal', reason: 'start' },
      counted: 0,
      lastChange: undefined,
    })
    expect(await switchingOf(db, series)).toMatchObject({ state: { inspection: 'normal' }, counted: 1 })
  })

  // MIL-STD-105E (1989), 4.7.1, 4.7.2 and 4.8, read: 2 of 5 not accepted; 5 in a row accepted; 5 not accepted under tightened.
  test('goes to tightened with the second of five not accepted, and back after five accepted in a row', async () => {
    const series = await rejected()
    for (let i = 0; i < 3; i++) await accepted(series)
    expect((await switchingOf(db, series)).state.inspection).toBe('normal')
    await rejected(series)
    const tightened = await switchingOf(db, series)
    expect(tightened).toMatchObject({
      state: { inspection: 'tightened', reason: 'two of five not accepted' },
      lastChange: { from: 'normal', to: 'tightened', lotId: expect.any(Number), note: undefined },
      counted: 5,
    })
    for (let i = 0; i < 4; i++) await accepted(series)
    expect((await switchingOf(db, series)).state.inspection).toBe('tightened')
    await accepted(series)
    expect(await switchingOf(db, series)).toMatchObject({
      state: { inspection: 'normal', reason: 'five in a row accepted' },
      lastChange: { from: 'tightened', to: 'normal' },
    })
  })

  test('stops after five not accepted under tightened, and begins again only when a manager says the supplier has acted', async () => {
    const series = await rejected()
    for (let i = 0; i < 6; i++) await rejected(series)
    expect(await switchingOf(db, series)).toMatchObject({
      state: { inspection: 'discontinued', reason: 'five not accepted under tightened inspection' },
    })
    await accepted(series)
    expect((await switchingOf(db, series)).state.inspection).toBe('discontinued')
    await expect(note(series, 'reduced-wanted')).rejects.toMatchObject({ kind: 'conflict' })
    await note(series, 'supplier-acted', 'a new crimping tool, seen')
    expect(await switchingOf(db, series)).toMatchObject({
      state: { inspection: 'tightened', reason: 'supplier has acted' },
      lastChange: { from: 'discontinued', to: 'tightened', lotId: undefined, note: 'a new crimping tool, seen' },
    })
  })

  // ISO 2859-1:1999, 9.3.3, from memory: 2 points a lot accepted under an acceptance number of 0 or 1, reduced from 30.
  test('goes to reduced at a switching score of thirty, only where it is wanted, and back as soon as it is not', async () => {
    const series = await accepted()
    for (let i = 0; i < 14; i++) await accepted(series)
    expect(await switchingOf(db, series)).toMatchObject({
      state: { inspection: 'normal', score: 30 },
      reducedWanted: false,
    })
    await note(series, 'reduced-wanted')
    await accepted(series)
    expect(await switchingOf(db, series)).toMatchObject({
      state: { inspection: 'reduced', reason: 'switching score of thirty' },
      reducedWanted: true,
    })
    await note(series, 'reduced-ended', 'the factory stood still')
    expect(await switchingOf(db, series)).toMatchObject({
      state: { inspection: 'normal', reason: 'production not steady' },
      lastChange: { from: 'reduced', note: 'the factory stood still' },
      reducedWanted: false,
    })
  })

  test('does not count a concession as accepted, and follows the verdict where the manager overruled it', async () => {
    const concession = { riskBearer: 'A. Person', use: 'desks', cords: 5, until: '2030-01-31' }
    const series = await decided(2, { outcome: 'conceded', concession })
    await decided(2, { outcome: 'accepted' }, series)
    expect((await switchingOf(db, series)).state.inspection).toBe('tightened')
  })

  test('takes a lot tested whole by plan as accepted where fewer than too many were found', async () => {
    const whole = { plan: { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } } as const
    const series = await decided(2, { outcome: 'accepted' }, undefined, whole)
    await decided(3, { outcome: 'accepted' }, series, whole)
    expect((await switchingOf(db, series)).state).toMatchObject({ inspection: 'normal', latest: [true, false] })
    await decided(3, { outcome: 'accepted' }, series, whole)
    expect((await switchingOf(db, series)).state.inspection).toBe('tightened')
  })

  test('leaves isolated lots out', async () => {
    const series = await rejected()
    await rejected(series)
    await owner`update lots set isolated = true where supplier_id = ${series.supplierId}`
    expect(await switchingOf(db, series)).toMatchObject({ state: { inspection: 'normal' }, counted: 0, isolated: 2 })
  })

  test('is nobody’s to type: only a manager says what the rules ask for, with a reason, and the words stay', async () => {
    const series = await accepted()
    for (const other of [three.officer, three.inspector])
      await expect(
        noteSeries(db, other, series.supplierId, {
          key: randomUUID(),
          itemId: series.itemId,
          kind: 'reduced-wanted',
          reason: 'x',
        }),
      ).rejects.toMatchObject({ kind: 'forbidden' })
    await expect(note(series, 'reduced-wanted', ' ')).rejects.toMatchObject({ kind: 'invalid', field: 'reason' })
    await expect(note(series, 'supplier-acted')).rejects.toMatchObject({ kind: 'conflict' })
    await expect(note({ ...series, itemId: 999_999 }, 'reduced-wanted')).rejects.toMatchObject({ kind: 'missing' })
    const key = randomUUID()
    const same = { key, itemId: series.itemId, kind: 'reduced-wanted', reason: 'steady' } as const
    const twice = await Promise.all([1, 2].map(() => noteSeries(db, manager, series.supplierId, same)))
    expect(twice[0]).toBe(twice[1])
    await expect(owner`update series_notes set reason = 'other'`).rejects.toMatchObject({
      constraint_name: 'written_once',
    })
    const [told] = await owner`select action, subject from audit where action = 'series.noted' order by id desc limit 1`
    expect(told).toEqual({ action: 'series.noted', subject: `supplier/${series.supplierId}` })
  })
})
