// The digest of a decision: anybody can make it anew, a later correction leaves it true, and a row changed by hand is found.
import { randomUUID } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { closeLot } from '../../../app/lots/acts/close.ts'
import { correctResult } from '../../../app/lots/acts/correct-result.ts'
import { type DecisionChoice, decideLot } from '../../../app/lots/acts/decide.ts'
import { recordResult } from '../../../app/lots/acts/record-result.ts'
import { type After, evidenceRows, frozenEvidence, rowsAreAsSigned } from '../../../app/lots/evidence/read.ts'
import { drawnInOrder } from '../../../app/lots/record/pick-list.ts'
import { brokenInvariants } from '../../../db/invariants.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'
import { digestByHand } from '../../support/digest-by-hand.ts'
import { clear, drawnLot, failing, recordAll, signature, testedLot, toTest } from '../../support/lot.ts'
import { textOf } from '../../support/page-text.ts'
import { threePeople } from '../../support/people.ts'
import { takeReserve } from '../../support/ruling.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const { inspector, manager } = three

const decide = async (lotId: number, choice: DecisionChoice, reason = '') =>
  decideLot(db, manager, lotId, { ...(await signature(db, lotId, reason)), ...choice })
const evidenceOf = async (lotId: number, after: After = 'sample') => {
  const head = await frozenEvidence(db, lotId, after)
  return { ...head, list: await evidenceRows(db, head, { after: 0, atMost: 1000 }) }
}
const asSigned = async (lotId: number, after: After = 'sample') =>
  rowsAreAsSigned(db, await frozenEvidence(db, lotId, after))
const stored = async (lotId: number) => {
  const [row] = await owner`select evidence from decisions where lot_id = ${lotId} and after = 'sample'`
  return row?.evidence
}

/** Six of 24 cords, one missing with a cord that stands in, marks with everything that could be written in two ways. */
async function variedLot(): Promise<number> {
  const lotId = await drawnLot(db, three)
  const [one = 0, two = 0, missing = 0] = await toTest(db, lotId)
  const awkward = { carton: 'C "7"', spool: 'S\\8 – “x”', testerSerial: 'Prüfgerät 3 /β' }
  const record = (position: number, entry: Partial<typeof clear>) =>
    recordResult(db, inspector, lotId, { key: randomUUID(), position, ...clear, ...entry })
  await record(one, { ...awkward, crosstalkMargin: '4.100' })
  await record(two, { returnLossMargin: '-0.040' })
  await recordResult(db, inspector, lotId, { key: randomUUID(), position: missing, kind: 'gone', note: 'place "9"' })
  await correct(lotId, one, 1, { ...awkward, crosstalkMargin: '4.00' })
  await takeReserve(db, manager, lotId, { key: randomUUID(), position: missing })
  await recordAll(db, three, lotId)
  return lotId
}

function correct(lotId: number, position: number, entryNumber: number, entry: Partial<typeof clear> = {}) {
  const said = { key: randomUUID(), position, entryNumber, reason: 'misread', ...clear, ...entry }
  return correctResult(db, inspector, lotId, said)
}

describe('the digest', () => {
  test('is that of the rows, made anew by who reads the method', async () => {
    const lotId = await variedLot()
    await decide(lotId, { outcome: 'accepted' })
    const { rows, list, method } = await evidenceOf(lotId)
    expect(rows).toMatchObject({ count: 7, sha256: await digestByHand(owner, lotId) })
    expect(method.rows).toContain('SHA-256')
    expect(list.find(({ entry }) => entry === 2)).toMatchObject({
      carton: 'C "7"',
      spool: 'S\\8 – “x”',
      testerSerial: 'Prüfgerät 3 /β',
      crosstalkMargin: '4.00',
      recordedBy: inspector.name,
    })
    expect(list.filter(({ counts }) => !counts)).toMatchObject([{ kind: 'gone', note: 'place "9"' }])
  })

  test('of the sample stays true when a screening corrects entries, twice, and records what a stop had left', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, two = 0, left = 0] = await toTest(db, lotId)
    for (const position of [one, two])
      await recordResult(db, inspector, lotId, { key: randomUUID(), position, ...failing })
    await decide(lotId, { outcome: 'screened' })
    const before = await evidenceOf(lotId)
    expect(before.rows).toMatchObject({ count: 2, sha256: await digestByHand(owner, lotId) })

    await correct(lotId, one, 1)
    await correct(lotId, one, 2, { crosstalkMargin: '9.9' })
    await recordResult(db, inspector, lotId, { key: randomUUID(), position: left, ...failing })
    expect(await evidenceOf(lotId)).toEqual(before)
    expect(await asSigned(lotId)).toBe(true)

    await recordAll(db, three, lotId)
    await correct(lotId, two, 1)
    await closeLot(db, manager, lotId, { ...(await signature(db, lotId)), outcome: 'sorted' })
    expect(await evidenceOf(lotId)).toEqual(before)
    const closing = await evidenceOf(lotId, 'screening')
    expect(closing.rows).toMatchObject({ count: 24, sha256: await digestByHand(owner, lotId) })
    expect(closing.list.find(({ position }) => position === one)).toMatchObject({ entry: 3, crosstalkMargin: '9.9' })
    expect([await asSigned(lotId), await asSigned(lotId, 'screening')]).toEqual([true, true])
    expect(await brokenInvariants(owner)).toEqual([])
  })

  test('asks no clock: entries of a screening whose time lies before the signature are not taken for those of the sample', async () => {
    const lotId = await testedLot(db, three, 2)
    await decide(lotId, { outcome: 'screened' })
    const before = await evidenceOf(lotId)
    await correct(lotId, before.list[0]?.position ?? 0, 1)
    await recordAll(db, three, lotId)
    await owner.begin(async (sql) => {
      await sql`set local session_replication_role = replica`
      await sql`update results set recorded_at = '2001-01-01' where lot_id = ${lotId} and lot_version > ${before.rows.lotVersion}`
      await sql`update earlier_results set corrected_at = '2001-01-01' where lot_id = ${lotId}`
    })
    expect(await evidenceOf(lotId)).toEqual(before)
    expect(await asSigned(lotId)).toBe(true)
  })

  test('is not made by the service alone: the version of an entry is the database’s word', async () => {
    const lotId = await testedLot(db, three, 0)
    const versions = await owner`select lot_version from results where lot_id = ${lotId} order by lot_version`
    const [lot] = await owner`select version from lots where id = ${lotId}`
    const signs = [...versions.map((row) => row.lot_version), lot?.version]
    expect(signs).toEqual([...new Set(signs)].toSorted((a, b) => a - b))
    await owner`update results set lot_version = 0 where lot_id = ${lotId}`
    expect(await owner`select from results where lot_id = ${lotId} and lot_version = 0`).toHaveLength(0)
  })
})

describe('a row changed behind the service’s back', () => {
  test.each([
    ['a margin', 'update results set crosstalk_margin = 9 where lot_id = $1 and nonconforming'],
    [
      'digits that mean the same',
      'update results set crosstalk_margin = 4.1 where lot_id = $1 and crosstalk_margin = 4.10',
    ],
    ['a state', "update results set state = 'marginal' where lot_id = $1 and state = 'conforms'"],
    ['a time', "update results set recorded_at = recorded_at + interval '1 microsecond' where lot_id = $1"],
    ['a person', 'update results set recorded_by = 1 where lot_id = $1'],
    ['a pick', 'update drawn_cords set pick = pick + 100 where lot_id = $1 and pick = 1'],
    ['a row', 'delete from results where lot_id = $1 and nonconforming'],
    ['what is nothing', "update results set spool = '' where lot_id = $1"],
  ])('is found: %s', async (_, change) => {
    const lotId = await testedLot(db, three, 1)
    await decide(lotId, { outcome: 'accepted' })
    const page = async () =>
      textOf(await (await (await testApp(db).appAs(manager)).get(`/lots/${lotId}/evidence`)).text())
    expect(await page()).toContain('The results in the database still give this digest')
    await owner.begin(async (sql) => {
      await sql`set local session_replication_role = replica`
      await sql.unsafe(change, [lotId])
    })
    expect(await asSigned(lotId)).toBe(false)
    expect(await page()).toContain('The results in the database do not give this digest')
  })

  test('is found in an entry that was corrected since', async () => {
    const lotId = await testedLot(db, three, 2)
    await decide(lotId, { outcome: 'screened' })
    const [cord] = (await drawnInOrder(db, lotId)).filter(({ result }) => result)
    await correct(lotId, cord?.position ?? 0, 1)
    expect(await asSigned(lotId)).toBe(true)
    await owner.begin(async (sql) => {
      await sql`set local session_replication_role = replica`
      await sql`delete from earlier_results where lot_id = ${lotId}`
    })
    expect(await asSigned(lotId)).toBe(false)
  })
})

test('the head keeps every nonconforming cord by its position, and the names of who recorded', async () => {
  const lotId = await testedLot(db, three, 3, { plan: { kind: 'every-cord', sampleSize: 24, acceptanceNumber: 24 } })
  await correct(lotId, 20, 1, { returnLossMargin: '-2' })
  await decide(lotId, { outcome: 'accepted' })
  expect(await stored(lotId)).toMatchObject({
    version: 2,
    nonconforming: '1-3,20',
    people: [{ id: inspector.id, name: inspector.name }],
    counts: { sampleRecorded: 24, sampleNonconforming: 4 },
  })
})

test('a document of a later format is refused with a sentence, not read wrongly', async () => {
  const lotId = await testedLot(db, three, 0)
  await decide(lotId, { outcome: 'accepted' })
  await owner.begin(async (sql) => {
    await sql`set local session_replication_role = replica`
    await sql`update decisions set evidence = evidence || '{"version": 3}' where lot_id = ${lotId}`
  })
  await expect(frozenEvidence(db, lotId, 'sample')).rejects.toMatchObject({ kind: 'conflict' })
})
