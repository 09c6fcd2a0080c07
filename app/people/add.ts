// Gives a person an account.
import type { Db, Tx } from '../../db/client.ts'
import { people } from '../../db/schema/people.ts'
import { record } from '../audit/record.ts'
import { Refusal } from '../kit/refusal.ts'
import { firstTime } from './once.ts'
import { hashPassword } from './password.ts'
import { type Person, type Role, requireRole } from './person.ts'
import { requireStanding } from './standing.ts'

export type NewPerson = { name: string; role: Role; password: string }

/**
 * A manager adds a person. `key` is the form's own: sent twice, it adds one.
 * Throws Refusal: forbidden for any other role; invalid for a name that is taken, whatever its case.
 */
export async function addPerson(
  db: Db,
  manager: Person,
  { key, ...person }: NewPerson & { key: string },
): Promise<void> {
  requireRole(manager, 'manager', 'add people')
  const passwordHash = await hashPassword(person.password)
  await db.transaction(async (tx) => {
    await requireStanding(tx, manager, 'manager', 'add people')
    if (!(await firstTime(tx, manager, key))) return
    const id = await insertPerson(tx, { ...person, passwordHash })
    await record(tx, manager, 'person.added', `people/${id}`, { name: person.name, role: person.role })
  })
}

/** The row alone, for a transaction that tells the audit itself. Returns its id. */
export async function insertPerson(
  tx: Tx,
  { name, role, passwordHash }: { name: string; role: Role; passwordHash: string },
): Promise<number> {
  const [row] = await tx.insert(people).values({ name, role, passwordHash }).onConflictDoNothing().returning()
  if (!row) throw new Refusal('invalid', `There is a person named ${name} already`, 'name')
  return row.id
}
