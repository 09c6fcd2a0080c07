// What the work list warns of.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { alertsOf } from '../../app/desk/alerts.ts'
import { lotsWaiting } from '../../app/desk/work-list.ts'
import { runHere } from '../../app/kit/task.ts'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { testApp } from '../support/app.ts'
import { freshDatabase } from '../support/database.ts'
import { announcedLot, drawnLot, failing, plannedLot, recordAll, signature, toTest } from '../support/lot.ts'
import { textOf } from '../support/page-text.ts'
import { threePeople } from '../support/people.ts'
import { countAgainst } from '../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { appAs } = testApp(db)

const alerts = async (inDays = 0) =>
  alertsOf(db, runHere, await lotsWaiting(db), new Date(Date.now() + inDays * 86_400_000))
const list = async () => textOf(await (await (await appAs(three.officer)).get('/lots')).text())

describe('the work list', () => {
  test('warns of nothing where nothing is amiss', async () => {
    // 15 of 24 with none allowed miss 3 with the chance C(21, 15) / C(24, 15) = 0.0415, by hand; 95 of 100 are to be caught.
    await plannedLot(db, three, { plan: { kind: 'zero-acceptance', sampleSize: 15, acceptanceNumber: 0 } })
    await plannedLot(db, three, { plan: { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } })
    expect(await alerts()).toEqual({ rulings: [], signals: [], weakPlans: [], waits: [] })
    expect(await (await (await appAs(three.officer)).get('/lots')).text()).not.toContain('class="alerts"')
  })

  test('tells of a drawn cord that is not decided, while the bench goes on and afterwards, until the manager rules', async () => {
    const lotId = await drawnLot(db, three, { plan: { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } })
    const [position = 0] = await toTest(db, lotId)
    const gone = { key: randomUUID(), position, kind: 'gone', note: 'not on its rack' } as const
    await recordResult(db, three.inspector, lotId, gone)
    const turnOf = async () =>
      (await lotsWaiting(db)).waiting.find(({ lots }) => lots.some(({ id }) => id === lotId))?.act
    expect((await alerts()).rulings).toMatchObject([{ lotId, undecided: 1 }])
    expect(await turnOf()).toBe('test')
    await recordAll(db, three, lotId)
    expect(await turnOf()).toBe('rule')
    expect(await list()).toContain('1 drawn cord gone or spoiled here; the manager rules.')
    await countAgainst(db, three.manager, lotId, position)
    expect((await alerts()).rulings).toEqual([])
    expect(await turnOf()).toBe('decide')
  })

  test('warns of a plan that lets more slip through than the item wants', async () => {
    const lotId = await plannedLot(db, three, {
      plan: { kind: 'zero-acceptance', sampleSize: 14, acceptanceNumber: 0 },
    })
    const { weakPlans } = await alerts()
    // C(21, 14) / C(24, 14) = 120 / 2024, by hand.
    expect(weakPlans).toMatchObject([{ lotId, tooMany: 3, catchOf100: '95' }])
    expect(weakPlans[0]?.acceptance).toBeCloseTo(120 / 2024, 12)
    expect(await list()).toContain(`Lot ${lotId} from`)
    expect(await list()).toContain('its plan lets 6 of 100 lots with 3 nonconforming slip through')
  })

  test('warns of a lot that waits for a week, and not a day before', async () => {
    const lotId = await announcedLot(db, three)
    expect((await alerts(6.9)).waits).toEqual([])
    expect((await alerts(7.1)).waits).toContainEqual(
      expect.objectContaining({ lotId, act: 'receive', days: 7, supplier: expect.any(String) }),
    )
  })

  describe('of a supplier', () => {
    let supplierId = 0
    beforeAll(async () => {
      for (const found of [2, 2]) {
        // 24 cords, level II, 10 %: 5 cords, 1 may fail (MIL-STD-105E, Tables I and II-A, read); they are tested first
        const lotId = await drawnLot(db, three, { terms: { acceptanceQualityLimit: '10' } })
        await recordAll(db, three, lotId, found)
        const [lot] = await owner<[{ supplier_id: number; item_id: number }]>`select * from lots where id = ${lotId}`
        if (supplierId === 0) supplierId = lot.supplier_id
        await owner`update lots set supplier_id = ${supplierId}, item_id = (select min(item_id) from lots where supplier_id = ${supplierId}) where id = ${lotId}`
        await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'returned' })
      }
    })

    test('says that its series is inspected more strictly, and why', async () => {
      const { signals } = await alerts()
      expect(signals).toMatchObject([
        {
          supplier: { id: supplierId },
          point: undefined,
          strict: { inspection: 'tightened', reason: 'two of five not accepted' },
        },
      ])
      expect(await list()).toContain('Tightened inspection: two of five or fewer lots in a row were not accepted.')
    })

    test('says that how strictly its series is inspected is not known, and since which lot', async () => {
      const lotId = await drawnLot(db, three, {
        terms: { acceptanceQualityLimit: '10' },
        plan: { kind: 'zero-acceptance', sampleSize: 6, acceptanceNumber: 0 },
      })
      const [position = 0] = await toTest(db, lotId)
      await recordResult(db, three.inspector, lotId, { key: randomUUID(), position, ...failing })
      await decideLot(db, three.manager, lotId, { ...(await signature(db, lotId)), outcome: 'returned' })
      const { signals } = await alerts()
      expect(signals).toContainEqual(
        expect.objectContaining({ strict: undefined, notKnown: { lotId, possible: ['normal'] } }),
      )
      expect(await list()).toContain(
        `how strictly it is inspected is not known since lot ${lotId}: normal is possible.`,
      )
    })

    test('is no news any more after two months without a decided lot', async () => {
      expect((await alerts(61)).signals).toEqual([])
    })
  })
})
