// The frozen plan of a lot, and its draw.
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { projectRoot } from '../../../app/kit/root.ts'
import { drawLot } from '../../../app/lots/acts/draw.ts'
import { freezePlan } from '../../../app/lots/acts/freeze-plan.ts'
import { factsOf } from '../../../app/lots/record/lot.ts'
import { drawnInOrder } from '../../../app/lots/record/pick-list.ts'
import { drawMethod } from '../../../app/statistics/draw.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { announcedLot, drawnLot, plannedLot, receivedLot } from '../../support/lot.ts'
import { textOf } from '../../support/page-text.ts'
import { threePeople } from '../../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { officer, inspector, manager } = three

const forbidden = { name: 'Refusal', kind: 'forbidden' }
const conflict = { name: 'Refusal', kind: 'conflict' }
const invalid = (field: string) => ({ name: 'Refusal', kind: 'invalid', field })
const actions = async (lotId: number) => (await factsOf(db, lotId)).audit.map((line) => line.action).reverse()

describe('a plan', () => {
  test('is frozen with the terms of its item, whatever the item says later', async () => {
    const lotId = await plannedLot(db, three)
    const { item } = await factsOf(db, lotId)
    await owner`update items set marginal_policy = 'lenient', crosstalk_accuracy = 9, too_many = '20%' where id = ${item.id}`
    const facts = await factsOf(db, lotId)
    expect(facts.plan).toMatchObject({ kind: 'single', sampleSize: 6, acceptanceNumber: 1, by: officer.name })
    expect(facts.terms).toMatchObject({ frozen: true, marginalPolicy: 'strict', crosstalkAccuracy: '1.2', tooMany: 3 })
    await expect(owner`update plans set acceptance_number = 5 where lot_id = ${lotId}`).rejects.toMatchObject({
      constraint_name: 'written_once',
    })
  })

  test.each([
    { plan: { kind: 'single', sampleSize: 0, acceptanceNumber: 0 }, field: 'sampleSize' },
    { plan: { kind: 'single', sampleSize: 25, acceptanceNumber: 0 }, field: 'sampleSize' },
    { plan: { kind: 'single', sampleSize: Number.NaN, acceptanceNumber: 0 }, field: 'sampleSize' },
    { plan: { kind: 'contract', sampleSize: 5, acceptanceNumber: 5 }, field: 'acceptanceNumber' },
    { plan: { kind: 'percentage', sampleSize: 5, acceptanceNumber: -1 }, field: 'acceptanceNumber' },
    { plan: { kind: 'zero-acceptance', sampleSize: 5, acceptanceNumber: 1 }, field: 'acceptanceNumber' },
    { plan: { kind: 'every-cord', sampleSize: 23, acceptanceNumber: 24 }, field: 'sampleSize' },
    { plan: { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 0 }, field: 'sampleSize' },
  ] as const)(
    'of $plan.kind $plan.sampleSize/$plan.acceptanceNumber for 24 cords is refused at $field',
    async ({ plan, field }) => {
      const lotId = await receivedLot(db, three)
      const { version } = await factsOf(db, lotId)
      await expect(freezePlan(db, officer, lotId, { version, reason: 'for the test', ...plan })).rejects.toMatchObject(
        invalid(field),
      )
      expect((await factsOf(db, lotId)).state).toBe('received')
    },
  )

  test('is the procurement officer’s to freeze, once, for a received lot', async () => {
    const plan = { kind: 'zero-acceptance', sampleSize: 5, acceptanceNumber: 0 } as const
    const early = await announcedLot(db, three)
    await expect(freezePlan(db, officer, early, { version: 1, reason: 'for the test', ...plan })).rejects.toMatchObject(
      conflict,
    )
    const lotId = await receivedLot(db, three)
    const { version } = await factsOf(db, lotId)
    for (const other of [inspector, manager])
      await expect(freezePlan(db, other, lotId, { version, reason: 'for the test', ...plan })).rejects.toMatchObject(
        forbidden,
      )
    const both = await Promise.allSettled(
      [1, 2].map(() => freezePlan(db, officer, lotId, { version, reason: 'for the test', ...plan })),
    )
    expect(both.map((one) => one.status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(await actions(lotId)).toEqual(['lot.announced', 'lot.received', 'lot.planned'])
  })

  test('for a lot smaller than what is too many calls all of it too many', async () => {
    const plan = { kind: 'every-cord', sampleSize: 2, acceptanceNumber: 2 } as const
    expect((await factsOf(db, await plannedLot(db, three, { size: 2, plan }))).terms.tooMany).toBe(2)
  })
})

describe('a draw', () => {
  // Positions by the published SHA-256 method, recomputed apart from the project with Python's hashlib.
  const picks = [22, 19, 2, 14, 24, 13]

  test('follows from its recorded seed, and is listed in walking order', async () => {
    const lotId = await drawnLot(db, three)
    const cords = await drawnInOrder(db, lotId)
    const picked = cords.toSorted((a, b) => (a.pick ?? 0) - (b.pick ?? 0))
    expect(picked.map((cord) => cord.position)).toEqual(picks)
    expect(cords.map((cord) => cord.position)).toEqual(picks.toSorted((a, b) => a - b))
    for (const cord of cords) expect((cord.carton - 1) * 10 + cord.place).toBe(cord.position)
    expect((await factsOf(db, lotId)).draw).toMatchObject({
      seed: '271828182845904523536028',
      method: 'cordsift-draw-1',
      standIns: 0,
      by: inspector.name,
    })
  })

  test('names its method, whose document says the whole of it', async () => {
    const document = readFileSync(join(projectRoot, 'docs/draw.md'), 'utf8')
    expect(document.split('\n')[0]).toContain(drawMethod)
    expect(document).toContain('if i <= max(2_000_000, 2 * N)') // the end of the method, which the sentence of old left out
    const page = await (await (await testApp(db).appAs(inspector)).get(`/lots/${await drawnLot(db, three)}`)).text()
    expect(textOf(page)).toContain('cordsift-draw-1: SHA-256 of the seed')
  })

  test('takes its seed from the system’s random source: at least 24 digits, another for each lot', async () => {
    const lots = [await plannedLot(db, three), await plannedLot(db, three)]
    for (const lotId of lots) await drawLot(db, inspector, lotId)
    const seeds = await Promise.all(lots.map(async (lotId) => (await factsOf(db, lotId)).draw?.seed ?? ''))
    for (const seed of seeds) expect(seed).toMatch(/^\d{24,}$/)
    expect(seeds[0]).not.toBe(seeds[1])
  })

  test('is made exactly once, by the warehouse inspector, after the plan', async () => {
    const early = await receivedLot(db, three)
    await expect(drawLot(db, inspector, early)).rejects.toMatchObject(conflict)
    const lotId = await plannedLot(db, three)
    for (const other of [officer, manager]) await expect(drawLot(db, other, lotId)).rejects.toMatchObject(forbidden)
    const all = await Promise.allSettled([1, 2, 3].map(() => drawLot(db, inspector, lotId)))
    expect(all.filter((one) => one.status === 'fulfilled')).toHaveLength(1)
    expect(await drawnInOrder(db, lotId)).toHaveLength(6)
    expect((await actions(lotId)).filter((action) => action === 'lot.drawn')).toHaveLength(1)
  })
})
