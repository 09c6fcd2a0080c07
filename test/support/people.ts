// The three people of the tests.

import { hashPassword } from '../../app/people/passwords/password.ts'
import type { Person } from '../../app/terms/person.ts'
import type { Db } from '../../db/client.ts'
import { people } from '../../db/schema/people.ts'

export const PASSWORD = 'three words together'
/** Where the tests' people sign in from, unless a test is about that. */
export const NETWORK = '192.0.2.1'

export type ThreePeople = { officer: Person; inspector: Person; manager: Person }

/** Puts one person of each role into an empty database, all with PASSWORD. */
export async function threePeople(db: Db): Promise<ThreePeople> {
  return {
    officer: await addTo(db, 'Oda Officer', 'officer'),
    inspector: await addTo(db, 'Ivo Inspector', 'inspector'),
    manager: await addTo(db, 'Mara Manager', 'manager'),
  }
}

/** One more person, for what two of the same role do at once. */
export async function addTo(db: Db, name: string, role: Person['role']): Promise<Person> {
  const passwordHash = await hashPassword(PASSWORD)
  const [row] = await db.insert(people).values({ name, role, passwordHash }).returning({ id: people.id })
  if (!row) throw new Error(`${name} was not added`)
  return { id: row.id, name, role, separateDuties: true }
}
