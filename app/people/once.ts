// A form is carried out once: sent again it is answered as before, and a key that comes with anything else is refused.
import { createHash } from 'node:crypto'
import { eq, sql } from 'drizzle-orm'
import postgres from 'postgres'
import type { Tx } from '../../db/client.ts'
import { submissions } from '../../db/schema/people.ts'
import { statement } from '../../db/statement.ts'
import { allOf } from '../kit/all-of.ts'
import { Refusal } from '../kit/refusal.ts'
import type { AuditAction } from '../terms/actions.ts'
import type { Person } from '../terms/person.ts'

type Word = string | number | boolean | null | undefined
/** What was typed, as it is kept. Passwords stay out: a digest of one could be guessed from. */
export type Input = { [field: string]: Word | Input | readonly Input[] } & { password?: never }

/** What a form is: the same key for any other person, act, subject or input is another form. */
export type Sent = {
  key: string
  person: Person
  /** what it does, in the audit's words, such as cord.recorded */
  act: AuditAction
  /** path of what it does it to, such as lot/17/cord/3 */
  subject: string
  input: Input
}

/** What a key did before; null for what the thing itself keeps with the key. */
export type CarriedOut = {
  personId: number
  act: string | null
  subject: string | null
  inputDigest: string | null
  made: number | null
}

/**
 * Carries a form out once, inside the verb's transaction. `make` returns the number of what it made, or undefined where
 * it did nothing and the form may be mended and sent again with its key. The same form sent again is answered with the
 * number of the first time and `again`; one that comes at the same moment waits for the first to be committed or given up.
 * `kept`: what the thing itself remembers of this key, longer than the day after which keys are forgotten.
 * Throws Refusal (conflict, field key) where the key was used for anything else.
 */
export async function once<M extends number | undefined>(
  tx: Tx,
  { kept, ...sent }: Sent & { kept?: CarriedOut | undefined },
  make: () => Promise<M>,
): Promise<{ made: M | number; again: boolean }> {
  const before = kept ?? (await claim(tx, sent))
  if (before) {
    refuseOther(before, sent)
    if (before.made === null) throw new Error(`the form that did ${before.act} is kept without what it made`)
    return { made: before.made, again: true }
  }
  const made = await make()
  if (made === undefined) await tx.delete(submissions).where(eq(submissions.key, sent.key))
  else await tx.update(submissions).set({ made }).where(eq(submissions.key, sent.key))
  return { made, again: false }
}

type Once = typeof once

/**
 * Does the work of a verb whose thing keeps the form's key for good, as an entry of the bench does, with all that it writes
 * sent together, in a transaction of its own: first as if the key were unused and nothing stood against it. Where that turns out wrong
 * nothing was done, and the work is done again with the key asked about before anything else, as `once` does.
 */
export async function onceInOneGo<R>(
  transaction: (work: (tx: Tx) => Promise<R>) => Promise<R>,
  work: (tx: Tx, once: Once) => Promise<R>,
): Promise<R> {
  try {
    return await transaction((tx) => work(tx, boldly))
  } catch (error) {
    if (!(error instanceof Refusal) && !isTaken(error)) throw error
    return transaction((tx) => work(tx, once))
  }
}

const boldly: Once = async (tx, { kept, ...sent }, make) => {
  if (kept) return once(tx, { kept, ...sent }, make)
  const { key, person } = sent
  const [, made] = await allOf([putDown(tx, { key, personId: person.id }), make()])
  return { made, again: false }
}

const putDown = statement<{ key: string; personId: number }>('key', ['key', 'personId']).worded((db, key) =>
  db.insert(submissions).values(key),
)

/** Whether it is the key that was put down before. */
function isTaken(error: unknown): boolean {
  const cause = error instanceof Error ? error.cause : undefined
  return cause instanceof postgres.PostgresError && cause.constraint_name === 'submissions_pkey'
}

/** SHA-256 over the fields in the order of their names; what is undefined is left out. */
export function inputDigest(input: Input): string {
  const inOrder = (_: string, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([one], [other]) => (one < other ? -1 : 1)))
      : value
  return createHash('sha256').update(JSON.stringify(input, inOrder)).digest('hex')
}

const AT_ONCE = 5000

/** Forgets keys a day old, so many at once that no form waits for it; true where more are left. */
export async function forgetOldKeys(tx: Tx): Promise<boolean> {
  const gone = await tx.execute(sql`
    delete from submissions where key in (
      select key from submissions where at < now() - interval '24 hours' limit ${AT_ONCE}::int)`)
  return gone.count === AT_ONCE
}

/** Puts the key down as this form's; returns what it did before where it is taken. */
async function claim(tx: Tx, sent: Sent): Promise<CarriedOut | undefined> {
  const claimed = await tx
    .insert(submissions)
    .values(rowOf(sent))
    .onConflictDoNothing()
    .returning({ key: submissions.key })
  if (claimed.length === 1) return undefined
  const [before] = await tx.select().from(submissions).where(eq(submissions.key, sent.key))
  return before ?? claim(tx, sent) // forgotten between the two statements
}

function rowOf({ key, person, act, subject, input }: Sent) {
  return { key, personId: person.id, act, subject, inputDigest: inputDigest(input) }
}

function refuseOther(before: CarriedOut, { person, act, subject, input }: Sent): void {
  const refuse = (by: 'by-other' | 'for-other' | 'with-other-values') => {
    throw new Refusal('conflict', 'key/used', { before: by }, 'key')
  }
  if (before.personId !== person.id) refuse('by-other')
  if (before.act !== act || before.subject !== subject) refuse('for-other')
  if (before.inputDigest !== inputDigest(input)) refuse('with-other-values')
}
