// Gives a person an account.
import { and, eq, like } from 'drizzle-orm'
import type { Db, Tx } from '../../db/client.ts'
import { audit } from '../../db/schema/audit.ts'
import { people } from '../../db/schema/people.ts'
import { record } from '../audit/record.ts'
import { Refusal } from '../kit/refusal.ts'
import { once } from './once.ts'
import { hashPassword, matchesHash } from './password.ts'
import { type Person, type Role, requireRole } from './person.ts'
import { requireStanding } from './standing.ts'

export type NewPerson = { name: string; role: Role; password: string }

/**
 * A manager adds a person. `key` is the form's own: sent twice, it adds one.
 * Throws Refusal: forbidden for any other role; invalid for a name that is taken, whatever its case; conflict for a key
 * that came with another name, role or password before.
 */
export async function addPerson(
  db: Db,
  manager: Person,
  { key, ...person }: NewPerson & { key: string },
): Promise<void> {
  requireRole(manager, 'manager', 'add people')
  const { name, role, password } = person
  const passwordHash = await hashPassword(password)
  const sent = { key, person: manager, act: 'person.added', subject: 'people', input: { name, role } }
  const { made, again } = await db.transaction(async (tx) => {
    await requireStanding(tx, manager, 'manager', 'add people')
    return once(tx, sent, async () => {
      const id = await insertPerson(tx, { name, role, passwordHash })
      await record(tx, manager, 'person.added', `people/${id}`, { name, role })
      return id
    })
  })
  if (again) await refuseOtherPassword(db, made, person)
}

/**
 * What a form's key remembers holds no password, so a repeated form's is held against the account itself: only while it
 * is still the one that the form gave, as nobody may try out passwords that a person has chosen.
 */
async function refuseOtherPassword(db: Db, personId: number, { name, password }: NewPerson): Promise<void> {
  const [chosen] = await db
    .select({ id: audit.id })
    .from(audit)
    .where(and(eq(audit.subject, `people/${personId}`), like(audit.action, 'person.password-%')))
    .limit(1)
  const [row] = await db.select({ hash: people.passwordHash }).from(people).where(eq(people.id, personId))
  if (chosen || !row || (await matchesHash(row.hash, password))) return
  throw new Refusal('conflict', `This form was sent before and added ${name} with another password`, 'key')
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
