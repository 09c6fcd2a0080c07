// A person chooses another password: the first one was typed by the manager who made the account, and a signature must be one's own.
import { eq } from 'drizzle-orm'
import type { Db, Tx } from '../../../db/client.ts'
import { people } from '../../../db/schema/people.ts'
import { record } from '../../audit/record.ts'
import { Refusal } from '../../kit/refusal.ts'
import type { Person } from '../../terms/person.ts'
import { closeSessionsOf, openSession } from '../sessions/session.ts'
import { verifyPassword } from '../sessions/sign-in.ts'
import { requireActive } from '../standing.ts'
import { endLinksOf } from './link.ts'
import { refuseGuessable } from './new-password.ts'
import { hashPassword, signedIn } from './password.ts'

/** Ends every session of the person, here and elsewhere, and returns the token of a new one. Throws Refusal for a wrong password. */
export async function changePassword(
  db: Db,
  person: Person,
  { password, newPassword }: { password: string; newPassword: string },
): Promise<string> {
  refuseGuessable(newPassword, { name: person.name, field: 'newPassword' })
  if (newPassword === password) throw new Refusal('invalid', 'password/present-one', {}, 'newPassword')
  await verifyPassword(db, person, password)
  const passwordHash = await hashPassword(newPassword, signedIn(person.id))
  return db.transaction(async (tx) => {
    await requireActive(tx, person)
    await setPassword(tx, person.id, passwordHash)
    await record(tx, person, 'person.password-changed', `people/${person.id}`, {})
    return openSession(tx, person.id)
  })
}

/** The person's own choice, for a transaction that tells the audit itself. Ends every session and link that was there before. */
export async function setPassword(tx: Tx, personId: number, passwordHash: string): Promise<void> {
  await tx.update(people).set({ passwordHash, passwordTemporary: false }).where(eq(people.id, personId))
  await closeSessionsOf(tx, personId)
  await endLinksOf(tx, personId)
}
