// Guessing is slowed, never locked out: after a few wrong passwords in a row each next one is looked at later.
import { createHash } from 'node:crypto'
import { eq, sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { passwordAttempts } from '../../../db/schema/people.ts'
import { Wait } from '../../kit/refusal.ts'

/** So many wrong passwords in a row cost no time. The next is followed by a wait of FIRST_WAIT seconds, each further one by twice as long, up to LONGEST_WAIT. */
export const FREE_ATTEMPTS = 4
const FIRST_WAIT = 10
const LONGEST_WAIT = 900

/**
 * Counter of one network's attempts at one name, so that a stranger elsewhere keeps nobody out. A digest of ten bits
 * stands for the name: a network has 1,024 counters however many names it makes up, and what people type by mistake,
 * often a password, is not kept.
 */
export function signInCounter(network: string, foldedName: string): string {
  const bits = createHash('sha256').update(foldedName).digest().readUInt16BE() & 1023
  return `sign-in/${network}/${bits}`
}

/** Counter of a signed-in person's signatures: nobody without a session of that person reaches it. */
export function signatureCounter(personId: number): string {
  return `signature/${personId}`
}

/**
 * Counts an attempt before the password is looked at, in one statement: a hundred guesses at once are a hundred. Returns
 * how many in a row that makes; throws Wait, and counts nothing, before the time of the next one.
 */
export async function countAttempt(db: Db, counter: string): Promise<number> {
  const { failures, lastAt, nextAt } = passwordAttempts
  // the clock as it stands once the row is ours: of two at once the later one may have begun first
  // a day without one is forgotten; a time further off than the longest wait is a clock that was set back
  const inRow = sql`case when ${lastAt} < clock_timestamp() - interval '1 day' then 1 else ${failures} + 1 end`
  const wait = sql`case when ${inRow} <= ${FREE_ATTEMPTS} then 0
    else least(${FIRST_WAIT} * 2 ^ least(${inRow} - ${FREE_ATTEMPTS + 1}, 20), ${LONGEST_WAIT}) end`
  const [counted] = await db
    .insert(passwordAttempts)
    .values({ counter, failures: 1, lastAt: sql`clock_timestamp()`, nextAt: sql`clock_timestamp()` })
    .onConflictDoUpdate({
      target: passwordAttempts.counter,
      set: {
        failures: inRow,
        lastAt: sql`clock_timestamp()`,
        nextAt: sql`clock_timestamp() + make_interval(secs => ${wait})`,
      },
      setWhere: sql`${nextAt} <= clock_timestamp() or ${nextAt} > clock_timestamp() + make_interval(secs => ${LONGEST_WAIT})`,
    })
    .returning({ failures })
  if (counted) return counted.failures
  const [row] = await db
    .select({ seconds: sql<number>`ceil(extract(epoch from ${nextAt} - clock_timestamp()))::int` })
    .from(passwordAttempts)
    .where(eq(passwordAttempts.counter, counter))
  const seconds = Math.max(row?.seconds ?? 1, 1)
  throw new Wait('password/too-many-wrong', { seconds }, seconds, 'password')
}

/** Takes back an attempt whose password was not looked at after all; `failures`: what counting it returned. */
export async function uncountAttempt(db: Db, counter: string, failures: number): Promise<void> {
  const own = passwordAttempts.failures
  await db
    .update(passwordAttempts)
    .set({
      failures: sql`${own} - 1`,
      // its own wait goes with it; the wait of an attempt that came after it stays
      nextAt: sql`case when ${own} = ${failures} then clock_timestamp() else ${passwordAttempts.nextAt} end`,
    })
    .where(eq(passwordAttempts.counter, counter))
}

/** After the right password. */
export async function clearAttempts(db: Db, counter: string): Promise<void> {
  await db.delete(passwordAttempts).where(eq(passwordAttempts.counter, counter))
}
