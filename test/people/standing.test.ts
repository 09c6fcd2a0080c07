// Who acts may still act: every verb looks again inside its transaction, whatever the session said before.
import { randomUUID } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { eq } from 'drizzle-orm'
import { beforeAll, describe, expect, test } from 'vitest'
import { noteSeries } from '../../app/history/series/note.ts'
import { projectRoot } from '../../app/kit/root.ts'
import { announceLot } from '../../app/lots/acts/announce.ts'
import { closeLot } from '../../app/lots/acts/close.ts'
import { correctLot } from '../../app/lots/acts/correct.ts'
import { correctResult } from '../../app/lots/acts/correct-result.ts'
import { decideLot } from '../../app/lots/acts/decide.ts'
import { drawLot } from '../../app/lots/acts/draw.ts'
import { freezePlan } from '../../app/lots/acts/freeze-plan.ts'
import { recordFile } from '../../app/lots/acts/import-results.ts'
import { receiveLot } from '../../app/lots/acts/receive.ts'
import { recordResult } from '../../app/lots/acts/record-result.ts'
import { recountLot } from '../../app/lots/acts/recount.ts'
import { withdrawLot } from '../../app/lots/acts/withdraw.ts'
import { readResultsText } from '../../app/lots/rules/results-file.ts'
import { addPerson } from '../../app/people/accounts/add.ts'
import { deactivate } from '../../app/people/accounts/deactivate.ts'
import { peopleOf } from '../../app/people/accounts/list.ts'
import { reactivate } from '../../app/people/accounts/reactivate.ts'
import { setRole } from '../../app/people/accounts/set-role.ts'
import { resetPassword } from '../../app/people/passwords/reset.ts'
import { requireStanding } from '../../app/people/standing.ts'
import { changeItem, defineItem } from '../../app/register/define-item.ts'
import { registerSupplier } from '../../app/register/register-supplier.ts'
import type { Person } from '../../app/terms/person.ts'
import { people } from '../../db/schema/people.ts'
import { freshDatabase } from '../support/database.ts'
import { clear, terms } from '../support/lot.ts'
import { addTo, PASSWORD, type ThreePeople, threePeople } from '../support/people.ts'
import { aloud } from '../support/refusals.ts'
import { takeReserve } from '../support/ruling.ts'

const { db, owner } = await freshDatabase()
let three: ThreePeople
beforeAll(async () => {
  three = await threePeople(db)
})

const key = () => randomUUID()
const packing = { size: 24, cartons: 3, cordsInCarton: 10 }
const lot = { supplierId: 1, itemId: 1, ...packing, productionMark: 'P', purchaseOrder: 'O', isolated: false }
const plan = { kind: 'zero-acceptance', sampleSize: 8, acceptanceNumber: 0 } as const
const signature = { version: 1, password: PASSWORD, reason: 'x' }
const file = await readResultsText(
  'position,crosstalk margin,return loss margin,wire map,visual,tester serial\n1,3,2,pass,pass,T\n',
  { size: 24, terms },
)

type Verb = [string, Person['role'], (person: Person) => Promise<unknown>]
const verbs: Verb[] = [
  ['register a supplier', 'officer', (p) => registerSupplier(db, p, { key: key(), name: 'New maker' })],
  ['define an item', 'officer', (p) => defineItem(db, p, { key: key(), ...terms })],
  ['change an item', 'officer', (p) => changeItem(db, p, 1, { key: key(), version: 1, ...terms })],
  ['announce a lot', 'officer', (p) => announceLot(db, p, { key: key(), ...lot })],
  ['correct a lot', 'officer', (p) => correctLot(db, p, 1, { version: 1, ...lot })],
  ['freeze a plan', 'officer', (p) => freezePlan(db, p, 1, { version: 1, reason: 'for the test', ...plan })],
  ['receive a lot', 'inspector', (p) => receiveLot(db, p, 1, { version: 1, ...packing, note: '' })],
  ['draw', 'inspector', (p) => drawLot(db, p, 1)],
  ['record a result', 'inspector', (p) => recordResult(db, p, 1, { key: key(), position: 1, ...clear })],
  ['record a file', 'inspector', (p) => recordFile(db, p, 1, { key: key(), file })],
  [
    'correct a result',
    'inspector',
    (p) => correctResult(db, p, 1, { key: key(), position: 1, entryNumber: 1, reason: 'x', ...clear }),
  ],
  ['rule on a cord', 'manager', (p) => takeReserve(db, p, 1, { key: key(), position: 1 })],
  ['count a lot again', 'inspector', (p) => recountLot(db, p, 1, { key: key(), position: 1, size: 1, reason: 'x' })],
  ['decide on a lot', 'manager', (p) => decideLot(db, p, 1, { ...signature, outcome: 'accepted' })],
  ['close a lot', 'manager', (p) => closeLot(db, p, 1, { ...signature, outcome: 'sorted' })],
  ['withdraw a lot', 'manager', (p) => withdrawLot(db, p, 1, { version: 1, reason: 'x' })],
  [
    'note a series',
    'manager',
    (p) => noteSeries(db, p, 1, { key: key(), itemId: 1, kind: 'supplier-acted', reason: 'x' }),
  ],
  [
    'add a person',
    'manager',
    (p) => addPerson(db, p, { key: key(), name: 'Nina New', role: 'inspector', password: 'plain words in a row' }),
  ],
  ['set a role', 'manager', (p) => setRole(db, p, three.officer.id, { seen: 'officer', role: 'inspector' })],
  ['deactivate a person', 'manager', (p) => deactivate(db, p, three.officer.id)],
  ['reactivate a person', 'manager', (p) => reactivate(db, p, three.officer.id)],
  ['reset a password', 'manager', (p) => resetPassword(db, p, three.officer.id)],
]

describe('an act of somebody whose standing changed', () => {
  /** their signature is looked at first */
  const signed = ['decide on a lot', 'close a lot']

  test.each(verbs)('%s is refused to a %s whose role was changed meanwhile', async (_, role, act) => {
    const person = await addTo(db, `Rolf ${randomUUID()}`, role)
    await db
      .update(people)
      .set({ role: role === 'officer' ? 'inspector' : 'officer' })
      .where(eq(people.id, person.id))
    await refused(person, act, /role of .* was changed meanwhile/)
  })

  test.each(verbs)('%s is refused to a %s who was deactivated meanwhile', async (_, role, act) => {
    const person = await addTo(db, `Dora ${randomUUID()}`, role)
    await db.update(people).set({ active: false }).where(eq(people.id, person.id))
    await refused(person, act, /was deactivated meanwhile/)
  })

  test.each(verbs)('%s is refused to a %s whose password was reset meanwhile', async (name, role, act) => {
    const person = await addTo(db, `Rita ${randomUUID()}`, role)
    await owner`update people set password_hash = null where id = ${person.id}`
    await refused(person, act, signed.includes(name) ? /password is not right/ : /was reset meanwhile/)
  })

  async function refused(person: Person, act: Verb[2], why: RegExp) {
    await expect(aloud(act(person))).rejects.toThrow(why)
    expect(await owner`select action from audit where person_id = ${person.id}`).toEqual([])
  }
})

test('every verb begins with it', () => {
  const without = readdirSync(join(projectRoot, 'app'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => ({ name, text: readFileSync(join(projectRoot, 'app', name), 'utf8') }))
    .filter(({ text }) => text.includes('.transaction(') && !/require(Standing|Active)\(tx|lockToDecide\(/.test(text))
    .map(({ name }) => name)
  // nobody acts there as somebody: jobs, counts, the probe of the disk, the console, the first manager, a session that opens
  expect(without.sort()).toEqual([
    'audit/often.ts',
    'jobs/run.ts',
    'people/accounts/set-up.ts',
    'people/passwords/recover.ts',
    'people/sessions/sign-in.ts',
    'web/ops/disk.ts',
  ])
})

test('of managers who deactivate each other at the same moment, only one does', async () => {
  const [one, other] = [await addTo(db, 'Ola One', 'manager'), await addTo(db, 'Odd Other', 'manager')]
  const ends = await Promise.allSettled([deactivate(db, one, other.id), deactivate(db, other, one.id)])
  expect(ends.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
  const left = (await peopleOf(db)).filter(({ id, active }) => active && (id === one.id || id === other.id))
  expect(left).toHaveLength(1)
})

test('an act under way ends before the line that takes the right away', async () => {
  const officer = await addTo(db, 'Olaf Officer', 'officer')
  const wait = await db.transaction(async (tx) => {
    await requireStanding(tx, officer, 'announce-lot')
    const change = setRole(db, three.manager, officer.id, { seen: 'officer', role: 'inspector' })
    while ((await owner`select from pg_locks where not granted`).length === 0);
    return { change, told: await owner`select from audit where subject = ${`people/${officer.id}`}` }
  })
  expect(wait.told).toHaveLength(0)
  await wait.change
  expect(await owner`select from audit where subject = ${`people/${officer.id}`}`).toHaveLength(1)
})
