// The lots by what waits for whom, and the options for a plan.
import { randomUUID } from 'node:crypto'
import { expect, test } from 'vitest'
import { closedLots } from '../../app/desk/closed-lots.ts'
import { lotsWaiting } from '../../app/desk/work-list.ts'
import { closeLot } from '../../app/lots/acts/close.ts'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { withdrawLot } from '../../app/lots/acts/withdraw.ts'
import { factsOf } from '../../app/lots/record/lot.ts'
import { freshDatabase } from '../support/database.ts'
import { announcedLot, clear, drawnLot, plannedLot, receivedLot, recordAll, toTest } from '../support/lot.ts'
import { PASSWORD, threePeople } from '../support/people.ts'

const { db } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three

const all = {
  words: [],
  supplierId: undefined,
  itemId: undefined,
  state: undefined,
  from: undefined,
  until: undefined,
  order: 'latest' as const,
  page: 1,
}

const sign = async (lotId: number) => ({ version: (await factsOf(db, lotId)).version, password: PASSWORD, reason: 'x' })

test('the list groups the lots by what waits for whom, in the order of the record', async () => {
  expect(await lotsWaiting(db)).toEqual({ waiting: [], closed: 0 })
  const announced = await announcedLot(db, three)
  const received = await receivedLot(db, three)
  const planned = await plannedLot(db, three)
  const drawn = await drawnLot(db, three)
  const [one = 0] = await toTest(db, drawn)
  await recordResult(db, inspector, drawn, { key: randomUUID(), position: one, ...clear })
  const decidable = await drawnLot(db, three)
  await recordAll(db, three, decidable, 2)
  const screening = await drawnLot(db, three)
  await recordAll(db, three, screening, 2)
  await decideLot(db, manager, screening, { ...(await sign(screening)), outcome: 'screened' })
  const screened = await drawnLot(db, three)
  await recordAll(db, three, screened, 2)
  await decideLot(db, manager, screened, { ...(await sign(screened)), outcome: 'screened' })
  await recordAll(db, three, screened)
  const returned = await drawnLot(db, three)
  await recordAll(db, three, returned, 2)
  await decideLot(db, manager, returned, { ...(await sign(returned)), outcome: 'returned' })
  const withdrawn = await announcedLot(db, three)
  await withdrawLot(db, manager, withdrawn, { version: 1, reason: 'x' })

  const { waiting, closed } = await lotsWaiting(db)
  expect(waiting.map(({ act, role, lots }) => [act, role, lots.map((lot) => lot.id)])).toEqual([
    ['receive', 'inspector', [announced]],
    ['plan', 'officer', [received]],
    ['draw', 'inspector', [planned]],
    ['test', 'inspector', [drawn]],
    ['decide', 'manager', [decidable]],
    ['screen', 'inspector', [screening]],
    ['close', 'manager', [screened]],
  ])
  expect(waiting.flatMap((group) => group.lots).map((lot) => [lot.recorded, lot.toRecord])).toEqual([
    [0, 0],
    [0, 0],
    [0, 6],
    [1, 6],
    [6, 6],
    [6, 24],
    [24, 24],
  ])
  expect(closed).toBe(2)
  const done = async (wish = {}) => (await closedLots(db, { ...all, ...wish })).lots
  expect((await done()).map((lot) => [lot.id, lot.state])).toEqual([
    [withdrawn, 'withdrawn'],
    [returned, 'returned'],
  ])
  await closeLot(db, manager, screened, { ...(await sign(screened)), outcome: 'sorted' })
  expect((await done())[0]).toMatchObject({ id: screened, state: 'sorted', recorded: 24 })
  expect((await done({ order: 'oldest' })).map((lot) => lot.id)).toEqual([returned, withdrawn, screened])
  expect((await done({ state: 'returned' })).map((lot) => lot.id)).toEqual([returned])
  expect(await done({ until: new Date('2001-01-01') })).toEqual([])
  expect((await done({ from: new Date('2001-01-01'), supplierId: 999_999 })).length).toBe(0)
  expect((await done({ words: [String(withdrawn)] })).map((lot) => lot.id)).toContain(withdrawn)
  expect(await done({ words: [String(withdrawn), 'nowhere'] })).toEqual([])
  expect(await closedLots(db, { ...all, page: 2 })).toEqual({ lots: [], more: false })
})

test('a lot that waits longest stands first in its group', async () => {
  const first = await announcedLot(db, three)
  const second = await announcedLot(db, three)
  const [receive] = (await lotsWaiting(db)).waiting
  const ids = receive?.lots.map((lot) => lot.id) ?? []
  expect(ids.indexOf(first)).toBeLessThan(ids.indexOf(second))
})

test('open lots are found by number, supplier, item, order and mark, and by signs that a pattern would read otherwise', async () => {
  const lotId = await announcedLot(db, three)
  const { supplier, item, announced } = await factsOf(db, lotId)
  const found = async (...words: string[]) =>
    (await lotsWaiting(db, words)).waiting.flatMap(({ lots }) => lots.map(({ id }) => id))
  for (const words of [[String(lotId)], [supplier.name.toUpperCase()], item.name.split(' '), [announced.purchaseOrder]])
    expect(await found(...words.flatMap((each) => each.split(' ')))).toContain(lotId)
  expect(await found(announced.productionMark, 'nowhere')).toEqual([])
  for (const sign of ['%', '_', '\\', "'"]) expect(await found(sign)).toEqual([])
})
