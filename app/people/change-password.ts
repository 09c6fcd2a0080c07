// A person chooses another password: the first one was typed by the manager who made the account, and a signature must be one's own.
import { eq } from 'drizzle-orm'
import type { Db } from '../../db/client.ts'
import { people } from '../../db/schema/people.ts'
import { record } from '../audit/record.ts'
import { hashPassword } from './password.ts'
import type { Person } from './person.ts'
import { closeSessionsOf, openSession } from './session.ts'
import { verifyPassword } from './sign-in.ts'
import { requireActive } from './standing.ts'

/** Ends every session of the person, here and elsewhere, and returns the token of a new one. Throws Refusal for a wrong password. */
export async function changePassword(
  db: Db,
  person: Person,
  { password, newPassword }: { password: string; newPassword: string },
): Promise<string> {
  await verifyPassword(db, person, password)
  const passwordHash = await hashPassword(newPassword)
  return db.transaction(async (tx) => {
    await requireActive(tx, person)
    await tx.update(people).set({ passwordHash }).where(eq(people.id, person.id))
    await closeSessionsOf(tx, person.id)
    await record(tx, person, 'person.password-changed', `people/${person.id}`, {})
    return openSession(tx, person.id)
  })
}
