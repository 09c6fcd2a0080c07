// Gives a person an account.

import { eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person, Role } from '../../terms/person.ts'
import { once } from '../once.ts'
import { refuseGuessable } from '../passwords/new-password.ts'
import { hashPassword, matchesHash, signedIn } from '../passwords/password.ts'
import { requireRole } from '../person.ts'
import { requireStanding } from '../standing.ts'
import { checkedName } from './name.ts'

export type NewPerson = { name: string; role: Role; password: string }

/**
 * A manager adds a person. `key` is the form's own: sent twice, it adds one.
 * Throws Refusal: forbidden for any other role; invalid for a name that is taken in a form that looks the same, and for a
 * password that is easily guessed; conflict for a key that came with another name, role or password before. The person has
 * to choose another password before anything else.
 */
export async function addPerson(
  db: Db,
  manager: Person,
  { key, ...person }: NewPerson & { key: string },
): Promise<void> {
  requireRole(manager, 'add-people')
  const { role, password } = person
  const name = checkedName(person.name)
  refuseGuessable(password, { name, field: 'password' })
  const passwordHash = await hashPassword(password, signedIn(manager.id))
  const sent = { key, person: manager, act: 'person.added' as const, subject: 'people', input: { name, role } }
  const { made, again } = await db.transaction(async (tx) => {
    await requireStanding(tx, manager, 'add-people')
    return once(tx, sent, async () => {
      const id = await insertPerson(tx, { name, role, passwordHash, passwordTemporary: true })
      await record(tx, manager, 'person.added', `people/${id}`, { name, role })
      return id
    })
  })
  if (again) await refuseOtherPassword(db, manager, made, person)
}

/**
 * What a form's key remembers holds no password, so a repeated form's is held against the account itself: only while it
 * is still the one that the form gave, as nobody may try out passwords that a person has chosen.
 */
async function refuseOtherPassword(
  db: Db,
  manager: Person,
  made: number,
  { name, password }: NewPerson,
): Promise<void> {
  const [row] = await db.select().from(people).where(eq(people.id, made))
  if (!row?.passwordTemporary || (await matchesHash(row.passwordHash, password, signedIn(manager.id)))) return
  throw new Refusal('conflict', 'person/added-otherwise', { name }, 'key')
}

/** The row alone, for a transaction that tells the audit itself. Returns its id. */
export async function insertPerson(tx: Tx, { name, ...person }: typeof people.$inferInsert): Promise<number> {
  const kept = checkedName(name)
  const [row] = await tx
    .insert(people)
    .values({ name: kept, ...person })
    .onConflictDoNothing()
    .returning()
  if (!row) throw new Refusal('invalid', 'name/taken', { name: kept }, 'name')
  return row.id
}
