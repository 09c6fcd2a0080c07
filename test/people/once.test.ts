// A form's key, over every verb that takes one: carried out once, answered again the same, refused with anything else.
import { randomUUID } from 'node:crypto'
import { sql } from 'drizzle-orm'
import { beforeAll, describe, expect, test } from 'vitest'
import { correctResult } from '../../app/lots/acts/correct-result.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { addPerson } from '../../app/people/accounts/add.ts'
import { forgetOldKeys, inputDigest, once } from '../../app/people/once.ts'
import { changePassword } from '../../app/people/passwords/change-password.ts'
import type { Person } from '../../app/terms/person.ts'
import { freshDatabase } from '../support/database.ts'
import { type KeyedForm, keyedVerbs } from '../support/forms.ts'
import { clear, drawnLot, failing, toTest } from '../support/lot.ts'
import { addTo, threePeople } from '../support/people.ts'

const { db, owner } = await freshDatabase()
const three = await threePeople(db)
const others = {
  officer: await addTo(db, 'Olga Officer', 'officer'),
  inspector: await addTo(db, 'Ingo Inspector', 'inspector'),
  manager: await addTo(db, 'Milan Manager', 'manager'),
}

const otherForm = { name: 'Refusal', kind: 'conflict', field: 'key' }

/** Makes every key two days old and lets the job forget them. */
async function aDayLater(): Promise<void> {
  await owner`update submissions set at = at - interval '2 days'`
  while (await db.transaction(forgetOldKeys));
  expect(await owner`select key from submissions`).toHaveLength(0)
}

describe.each(keyedVerbs)('to $verb', ({ counts, afterADay, ready }) => {
  const total = async () => Number((await owner.unsafe(`select ${counts} as n`))[0]?.n)
  let form: KeyedForm
  let key: string
  let before: number
  const made = async () => (await total()) - before
  beforeAll(async () => {
    form = await ready(db, three)
  })

  test('is carried out once, though it is sent three times at once and once more', async () => {
    key = randomUUID()
    before = await total()
    const answers = await Promise.all([1, 2, 3].map(() => form.send(key)))
    answers.push(await form.send(key))
    for (const answer of answers) expect(answer).toEqual(answers[0])
    expect(await made()).toBe(1)
  })

  test('is refused to another person, and with another input or subject, under the same key', async () => {
    await expect(form.send(key, others[form.person.role])).rejects.toMatchObject(otherForm)
    if (form.otherInput) await expect(form.otherInput(key)).rejects.toMatchObject(otherForm)
    if (form.otherSubject) await expect(form.otherSubject(key)).rejects.toMatchObject(otherForm)
    expect(await made()).toBe(1)
  })

  test('a day later brings what it must, and never the same thing twice behind one answer', async () => {
    const first = await form.send(key)
    await aDayLater()
    const late = form.send(key)
    if (afterADay === 'the same') expect(await late).toEqual(first)
    else if (afterADay === 'another') expect(await late).not.toEqual(first)
    else if (afterADay === 'refused rows') expect(await late).toMatchObject({ kind: 'refused' })
    else await expect(late).rejects.toMatchObject({ kind: afterADay })
    expect(await made()).toBe(afterADay === 'another' ? 2 : 1)
    if (afterADay !== 'the same') return
    await expect(form.send(key, others[form.person.role])).rejects.toMatchObject(otherForm)
    await expect(form.otherInput?.(key)).rejects.toMatchObject(otherForm)
    expect(await made()).toBe(1)
  })

  test('is refused under a key that did something else, however often it comes', async () => {
    const form = await ready(db, three)
    const taken = randomUUID()
    await spend(taken, form.person)
    before = await total()
    await expect(form.send(taken)).rejects.toMatchObject(otherForm)
    await expect(form.send(taken)).rejects.toMatchObject(otherForm)
    expect(await made()).toBe(0)
    await form.send(randomUUID())
    expect(await made()).toBe(1)
  })

  test('of two with different contents at once, one is carried out and the other refused', async () => {
    const form = await ready(db, three)
    const other = form.otherInput ?? form.otherSubject
    const shared = randomUUID()
    before = await total()
    const ends = await Promise.allSettled([form.send(shared), other?.(shared)])
    expect(ends.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    expect(ends.find((end) => end.status === 'rejected')?.reason).toMatchObject(otherForm)
    expect(await made()).toBe(1)
  })
})

/** Uses a key for an act that no verb has. */
function spend(key: string, person: Person) {
  return db.transaction((tx) =>
    once(tx, { key, person, act: 'form.refused', subject: 'lot', input: {} }, async () => 1),
  )
}

describe('an entry of the bench', () => {
  test('is known by its key after it was corrected and its key forgotten, and so is each correction', async () => {
    const lotId = await drawnLot(db, three)
    const [position = 0] = await toTest(db, lotId)
    const { inspector } = three
    const entry = { key: randomUUID(), position, ...clear }
    const correct = { key: randomUUID(), position, entryNumber: 1, reason: 'misread', ...failing }
    const back = { key: randomUUID(), position, entryNumber: 2, reason: 'read again', ...clear }
    await recordResult(db, inspector, lotId, entry)
    await correctResult(db, inspector, lotId, correct)
    await correctResult(db, others.inspector, lotId, back)
    for (const forgotten of [false, true]) {
      if (forgotten) await aDayLater()
      expect(await recordResult(db, inspector, lotId, entry)).toMatchObject({ state: 'conforms' })
      expect(await correctResult(db, inspector, lotId, correct)).toMatchObject({ state: 'does-not-conform' })
      expect(await correctResult(db, others.inspector, lotId, back)).toMatchObject({ state: 'conforms' })
      for (const other of [
        () => recordResult(db, inspector, lotId, { ...entry, key: correct.key }),
        () => recordResult(db, inspector, lotId, { ...entry, ...failing }),
        () => correctResult(db, inspector, lotId, { ...correct, key: entry.key }),
        () => correctResult(db, inspector, lotId, { ...correct, reason: 'another' }),
        () => correctResult(db, inspector, lotId, back),
      ])
        await expect(other()).rejects.toMatchObject(otherForm)
    }
    const keys = await owner`
      select entry, form_key from earlier_results where lot_id = ${lotId}
      union all select entry, form_key from results where lot_id = ${lotId} order by entry`
    expect(keys.map((row) => row.form_key)).toEqual([entry.key, correct.key, back.key])
  })

  test('takes its key from every other form, for a day', async () => {
    const lotId = await drawnLot(db, three)
    const [one = 0, other = 0] = await toTest(db, lotId)
    const key = randomUUID()
    await recordResult(db, three.inspector, lotId, { key, position: one, ...clear })
    const sent = { key, person: three.inspector, act: 'form.refused' as const, subject: 'lot', input: {} }
    const again = () => db.transaction((tx) => once(tx, sent, async () => 1))
    await expect(again()).rejects.toMatchObject(otherForm)
    await expect(recordResult(db, three.inspector, lotId, { key, position: other, ...clear })).rejects.toMatchObject(
      otherForm,
    )
    expect(await owner`select act, subject, input_digest, made from submissions where key = ${key}`).toEqual([
      { act: null, subject: null, input_digest: null, made: null },
    ])
    await aDayLater()
    expect(await again()).toEqual({ made: 1, again: false })
  })

  test('has its key in sixteen bytes and no index over it', async () => {
    const columns = await owner`
      select table_name, data_type from information_schema.columns where column_name = 'form_key' order by table_name`
    expect(columns.map(({ table_name, data_type }) => [table_name, data_type])).toEqual([
      ['earlier_results', 'uuid'],
      ['results', 'uuid'],
    ])
    expect(await owner`select indexname from pg_indexes where indexdef like '%form_key%'`).toHaveLength(0)
  })
})

describe('what is kept of a form', () => {
  const added = () => ({ key: randomUUID(), name: `Added ${randomUUID().slice(0, 8)}`, role: 'inspector' as const })
  const [one, other] = ['a horse reads at dusk', 'a mare writes at dawn']
  const kept = async (key: string) =>
    (await owner`select act, subject, input_digest, made from submissions where key = ${key}`)[0]

  test('holds nothing of a password: two passwords leave the same digest', async () => {
    const form = added()
    await addPerson(db, three.manager, { ...form, password: one })
    const row = await kept(form.key)
    expect(row?.input_digest).toBe(inputDigest({ name: form.name, role: form.role }))
    expect(JSON.stringify(row)).not.toContain(one)
  })

  test('so another password is held against the account, and no longer once the person chose one', async () => {
    const form = added()
    await addPerson(db, three.manager, { ...form, password: one })
    await addPerson(db, three.manager, { ...form, password: one })
    await expect(addPerson(db, three.manager, { ...form, password: other })).rejects.toMatchObject(otherForm)
    const [row] = await owner<{ id: number }[]>`select id from people where name = ${form.name}`
    const person: Person = { id: row?.id ?? 0, name: form.name, role: form.role, separateDuties: true }
    await changePassword(db, person, { password: one, newPassword: 'chosen by the person' })
    for (const guess of [one, other, 'chosen by the person'])
      await expect(addPerson(db, three.manager, { ...form, password: guess })).resolves.toBeUndefined()
  })

  test('does not depend on the order of fields, and does on every value', () => {
    expect(inputDigest({ a: 1, b: { c: 'x', d: null } })).toBe(
      inputDigest({ b: { d: null, c: 'x' }, a: 1, e: undefined }),
    )
    const digests = [{ a: 1 }, { a: '1' }, { a: null }, { a: true }, { b: 1 }, { a: [{ b: 1 }] }, {}].map(inputDigest)
    expect(new Set(digests).size).toBe(digests.length)
  })

  test('is forgotten after a day and not before, so many at once', async () => {
    await owner`delete from submissions`
    const { id } = three.officer
    const put = (count: number, age: string) => owner`
      insert into submissions (key, person_id, act, subject, input_digest, at, made)
      select gen_random_uuid(), ${id}, 'lot.announced', 'lot', '', now() - ${age}::interval, 1
      from generate_series(1, ${count})`
    await put(7, '23 hours 59 minutes')
    await put(5001, '24 hours 1 minute')
    expect(await db.transaction(forgetOldKeys)).toBe(true)
    expect(await owner`select count(*)::int as n from submissions`).toEqual([{ n: 8 }])
    expect(await db.transaction(forgetOldKeys)).toBe(false)
    expect(await owner`select count(*)::int as n from submissions`).toEqual([{ n: 7 }])
  })

  test('stays free where nothing was done, and where the verb failed', async () => {
    const sent = { key: randomUUID(), person: three.officer, act: 'lot.announced' as const, subject: 'lot', input: {} }
    const nothing = await db.transaction((tx) => once(tx, sent, async () => undefined))
    expect(nothing).toEqual({ made: undefined, again: false })
    const failed = db.transaction((tx) => once(tx, sent, () => tx.execute(sql`select 1 / 0`).then(() => 1)))
    await expect(failed).rejects.toMatchObject({ cause: { code: '22012' } })
    expect(await kept(sent.key)).toBeUndefined()
    expect(await db.transaction((tx) => once(tx, sent, async () => 7))).toEqual({ made: 7, again: false })
    expect(await db.transaction((tx) => once(tx, sent, async () => 8))).toEqual({ made: 7, again: true })
  })
})
