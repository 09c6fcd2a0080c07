// The inspection state of a series, computed from lots decided through the domain's own verbs.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { noteSeries } from '../../app/history/series/note.ts'
import { type DecisionChoice, decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { drawnInOrder } from '../../app/lots/record/pick-list.ts'
import { switchingOf } from '../../app/series/inspection.ts'
import { freshDatabase } from '../support/database.ts'
import {
  clear,
  drawnInSeries,
  failing,
  type OneSeries,
  plannedLot,
  recordAll,
  signature,
  toTest,
  type Wanted,
} from '../support/lot.ts'
import { threePeople } from '../support/people.ts'
import { takeReserve } from '../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three

/** 24 cords, level II, 10 %: MIL-STD-105E (1989), Tables I, II-A and II-B, read: normal 5 cords, 1 may fail; tightened 8, 1. */
const limit = { acceptanceQualityLimit: '10' }
const plan = { kind: 'single', sampleSize: 12, acceptanceNumber: 3 } as const

const drawn = (series?: OneSeries, wanted: Wanted = {}) =>
  drawnInSeries({ db, owner }, three, { terms: limit, plan, ...wanted }, series)

/** One more lot of the series, tested and decided; the first lot makes the series: so many of its first fetch fail. */
async function decided(
  found: number,
  choice: DecisionChoice,
  series?: OneSeries,
  wanted: Wanted = {},
): Promise<OneSeries> {
  const { lotId, ...own } = await drawn(series, wanted)
  await recordAll(db, three, lotId, found)
  await decideLot(db, manager, lotId, { ...(await signature(db, lotId, 'for the test')), ...choice })
  return own
}
const stateOf = async (series: OneSeries) => {
  const found = await switchingOf(db, series)
  if (!found) throw new Error('the item names a limit')
  return found.switching
}
const accepted = (series?: OneSeries) => decided(0, { outcome: 'accepted' }, series)
const rejected = (series?: OneSeries) => decided(2, { outcome: 'returned' }, series)
const note = (
  series: OneSeries,
  kind: 'supplier-acted' | 'reduced-wanted' | 'reduced-ended',
  reason = 'seen on a visit',
) => noteSeries(db, manager, series.supplierId, { key: randomUUID(), itemId: series.itemId, kind, reason })

describe('the inspection state of a series', () => {
  test('begins as normal, and a new supplier has no lots that count', async () => {
    const series = await accepted()
    expect(await stateOf({ ...series, supplierId: 999_999 })).toMatchObject({
      state: { inspection: 'normal', reason: 'start' },
      verdicts: [],
      lastChange: undefined,
    })
    expect(await stateOf(series)).toMatchObject({ inspection: 'normal', verdicts: [{ verdict: 'accept' }] })
  })

  // MIL-STD-105E (1989), 4.7.1, 4.7.2 and 4.8, read: 2 of 5 not accepted; 5 in a row accepted; 5 not accepted under tightened.
  test('goes to tightened with the second of five not accepted, and back after five accepted in a row', async () => {
    const series = await rejected()
    for (let i = 0; i < 3; i++) await accepted(series)
    expect((await stateOf(series)).state.inspection).toBe('normal')
    await rejected(series)
    const tightened = await stateOf(series)
    expect(tightened).toMatchObject({
      state: { inspection: 'tightened', reason: 'two of five not accepted' },
      lastChange: { from: 'normal', to: 'tightened', lotId: expect.any(Number), note: undefined },
      verdicts: { length: 5 },
    })
    for (let i = 0; i < 4; i++) await accepted(series)
    expect((await stateOf(series)).state.inspection).toBe('tightened')
    await accepted(series)
    expect(await stateOf(series)).toMatchObject({
      state: { inspection: 'normal', reason: 'five in a row accepted' },
      lastChange: { from: 'tightened', to: 'normal' },
    })
  })

  test('stops after five not accepted under tightened, and begins again only when a manager says the supplier has acted', async () => {
    const series = await rejected()
    for (let i = 0; i < 6; i++) await rejected(series)
    expect(await stateOf(series)).toMatchObject({
      state: { inspection: 'discontinued', reason: 'five not accepted under tightened inspection' },
    })
    await accepted(series)
    expect((await stateOf(series)).state.inspection).toBe('discontinued')
    await expect(note(series, 'reduced-wanted')).rejects.toMatchObject({ kind: 'conflict' })
    await note(series, 'supplier-acted', 'a new crimping tool, seen')
    expect(await stateOf(series)).toMatchObject({
      state: { inspection: 'tightened', reason: 'supplier has acted' },
      lastChange: { from: 'discontinued', to: 'tightened', lotId: undefined, note: 'a new crimping tool, seen' },
    })
  })

  // ISO 2859-1:1999, 9.3.3, from memory: 2 points a lot accepted under an acceptance number of 0 or 1, reduced from 30.
  test('goes to reduced at a switching score of thirty, only where it is wanted, and back as soon as it is not', async () => {
    const series = await accepted()
    for (let i = 0; i < 14; i++) await accepted(series)
    expect(await stateOf(series)).toMatchObject({
      state: { inspection: 'normal', score: 30 },
      reducedWanted: false,
    })
    await note(series, 'reduced-wanted')
    await accepted(series)
    expect(await stateOf(series)).toMatchObject({
      state: { inspection: 'reduced', reason: 'switching score of thirty' },
      reducedWanted: true,
    })
    await note(series, 'reduced-ended', 'the factory stood still')
    expect(await stateOf(series)).toMatchObject({
      state: { inspection: 'normal', reason: 'production not steady' },
      lastChange: { from: 'reduced', note: 'the factory stood still' },
      reducedWanted: false,
    })
  })

  test('follows the standard’s plan, whatever the plan of the house said and the manager did', async () => {
    const concession = { riskBearer: 'A. Person', use: 'desks', cords: 5, until: '2030-01-31' }
    const none = { plan: { kind: 'zero-acceptance', sampleSize: 12, acceptanceNumber: 0 } } as const
    const series = await decided(1, { outcome: 'returned' }, undefined, none)
    await decided(1, { outcome: 'returned' }, series, none)
    expect(await stateOf(series)).toMatchObject({
      inspection: 'normal',
      verdicts: [
        { verdict: 'accept', recorded: 5, found: 1 },
        { verdict: 'accept', recorded: 5, found: 1 },
      ],
    })
    await decided(2, { outcome: 'accepted' }, series)
    await decided(2, { outcome: 'conceded', concession }, series)
    expect(await stateOf(series)).toMatchObject({ inspection: 'tightened', lastChange: { to: 'tightened' } })
  })

  test('freezes the standard’s plan of the state at that moment beside the plan of the house', async () => {
    const series = await rejected()
    await rejected(series)
    const { lotId } = await drawn(series)
    expect((await factsOf(db, lotId)).firstFetch).toMatchObject({
      ...{ sampleSize: 8, acceptanceNumber: 1, rejectionNumber: 2, severity: 'tightened' },
      ...{ limit: '10', level: 'II', letter: 'D', standing: 'read', left: 8, open: true, first: true },
    })
    const alone = await plannedLot(db, three)
    expect((await factsOf(db, alone)).firstFetch).toBeUndefined()
  })

  test('has no say where no contract names a limit', async () => {
    const lotId = await plannedLot(db, three)
    const [lot] = await owner<
      [OneSeries]
    >`select supplier_id as "supplierId", item_id as "itemId" from lots where id = ${lotId}`
    expect(await switchingOf(db, lot)).toBeUndefined()
    await expect(note(lot, 'reduced-wanted')).rejects.toMatchObject({ kind: 'missing' })
  })

  test('takes a lot tested whole by plan by the first picks of its draw', async () => {
    const whole = { plan: { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } } as const
    const { lotId, ...series } = await drawn(undefined, whole)
    const first = (await drawnInOrder(db, lotId)).filter(({ pick = 0 }) => pick <= 5)
    for (const position of await toTest(db, lotId)) {
      const bad = first.slice(0, 2).some((cord) => cord.position === position)
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...(bad ? failing : clear) })
    }
    await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'accepted' })
    expect(await stateOf(series)).toMatchObject({ verdicts: [{ verdict: 'reject', recorded: 5, found: 2 }] })
  })

  test('replays lots whose plan was frozen without the standard’s, and finds what the counts of a frozen one have', async () => {
    const none = { plan: { kind: 'zero-acceptance', sampleSize: 12, acceptanceNumber: 0 } } as const
    const series = await rejected()
    await rejected(series)
    await accepted(series)
    const { lotId } = await drawn(series, none)
    const [first = 0] = await toTest(db, lotId)
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: first, kind: 'gone', note: 'gone' })
    const standIn = await takeReserve(db, manager, lotId, { key: randomUUID(), position: first })
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: standIn, ...failing })
    await decideLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'returned' })
    const before = await stateOf(series)
    expect(before.verdicts.map(({ verdict }) => verdict)).toEqual(['reject', 'reject', 'accept', 'not known'])
    expect(before.verdicts.at(-1)).toMatchObject({ recorded: 1, found: 1, replayed: false })
    await owner`alter table plans disable trigger written_once`
    await owner`update plans set standard_sample_size = null, standard_acceptance_number = null, standard_rejection_number = null,
      standard_severity = null, standard_limit = null, standard_level = null, standard_letter = null, standard_standing = null
      where lot_id in (select id from lots where supplier_id = ${series.supplierId})`
    await owner`alter table plans enable trigger written_once`
    const after = await stateOf(series)
    expect(after.verdicts).toEqual(before.verdicts.map((verdict) => ({ ...verdict, replayed: true })))
    expect(after).toMatchObject({ inspection: before.inspection, possible: before.possible })
  })

  test('leaves isolated lots out', async () => {
    const series = await rejected()
    await rejected(series)
    await owner`update lots set isolated = true where supplier_id = ${series.supplierId}`
    expect(await stateOf(series)).toMatchObject({ inspection: 'normal', verdicts: [], outside: 2 })
  })

  test('leaves a lot out that was resubmitted, in the series as in what its samples add up to', async () => {
    const series = await rejected()
    const { lotId } = await drawn(series)
    await owner`update lots set resubmission_of = (select min(id) from lots where supplier_id = ${series.supplierId}), declared_sorting = 'all'
      where id = ${lotId}`
    await recordAll(db, three, lotId, 2)
    await decideLot(db, manager, lotId, { ...(await signature(db, lotId, 'twice')), outcome: 'returned' })
    expect(await stateOf(series)).toMatchObject({ inspection: 'normal', outside: 1 })
    const [kept] = await owner`select lots, recorded from series_counts where supplier_id = ${series.supplierId}`
    const [first] = await owner`select recorded from decisions d join lots l on l.id = d.lot_id
      where l.supplier_id = ${series.supplierId} and l.resubmission_of is null`
    expect(kept).toEqual({ lots: 1, recorded: String(first?.recorded) })
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
