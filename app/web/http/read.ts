// Reads what a browser sends, once, by a zod schema: forms, addresses, ids.
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { z } from 'zod'
import { sentenceOf } from '../../../views/words/refusals.ts'
import { largestId } from '../../kit/limits.ts'
import type { Problems, Typed } from '../../kit/problems.ts'
import { Refusal, Wait } from '../../kit/refusal.ts'
import type { Env } from './env.ts'

/** What was read, or what is wrong with it by field. `typed` is what the reader typed, to be shown again. */
export type FormReading<T> =
  | { kind: 'read'; value: T; typed: Typed }
  | { kind: 'unreadable'; problems: Problems; typed: Typed }

/** What became of a form: carried out, or to be shown again with this status, with a sentence for each field that needs correcting. */
export type FormOutcome<R> =
  | { kind: 'done'; result: R }
  | { kind: 'refused'; status: 409 | 422 | 429; problems: Problems; typed: Typed }

/** Reads the body of a form. A file field arrives as a File, every other as text. */
async function readForm<T>(c: Context<Env>, schema: z.ZodType<T>): Promise<FormReading<T>> {
  return reading(await bodyOf(c), schema)
}

/** Reads the question that an address holds. */
export function readQuery<T>(c: Context<Env>, schema: z.ZodType<T>): FormReading<T> {
  return reading(c.req.query(), schema)
}

/**
 * Reads a form and hands it to a verb. A form that cannot be read, and one that the verb refuses as invalid, come back
 * with their problems: render the form again with status 422, with 409 where its key was used for another form, and with
 * 429 where it may be sent again later. Every other refusal goes on to its own page.
 */
export async function runForm<T, R>(
  c: Context<Env>,
  schema: z.ZodType<T>,
  act: (value: T) => Promise<R>,
): Promise<FormOutcome<R>> {
  const form = await readForm(c, schema)
  if (form.kind === 'unreadable') return { kind: 'refused', status: 422, problems: form.problems, typed: form.typed }
  return attempt(c, form.typed, () => act(form.value))
}

/** Runs a verb for a form that was read, where `typed` is what it held. */
export async function attempt<R>(c: Context<Env>, typed: Typed, act: () => Promise<R>): Promise<FormOutcome<R>> {
  try {
    return { kind: 'done', result: await act() }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    if (error.kind === 'conflict' && error.field === 'key')
      return { kind: 'refused', status: 409, problems: { form: sentenceOf(error) }, typed: seenAnew(typed) }
    const problems = { [error.field ?? 'form']: sentenceOf(error) }
    if (error instanceof Wait) {
      c.header('Retry-After', String(error.seconds))
      return { kind: 'refused', status: 429, problems, typed }
    }
    if (error.kind !== 'invalid') throw error
    return { kind: 'refused', status: 422, problems, typed }
  }
}

/** A page that comes back for its key shows the record as it is now: what the form says of it then is of today too. */
function seenAnew({ key, version, entryNumber, ...typed }: Typed): Typed {
  return typed
}

/** A number in the path, such as the 17 of /lots/17. What cannot be one leads to the page for what is not there. */
export function readId(c: Context<Env>, name: string): number {
  const text = c.req.param(name) ?? ''
  const id = /^[1-9]\d{0,9}$/.test(text) ? Number(text) : 0
  if (id < 1 || id > largestId) throw new Refusal('missing', 'page/missing', {})
  return id
}

/** For a body that ends too early or is no form. */
export function inPieces(cause: unknown): HTTPException {
  return new HTTPException(400, {
    message: 'The form arrived in pieces: load the page again and send it once more',
    cause,
  })
}

async function bodyOf(c: Context<Env>): Promise<Record<string, unknown>> {
  try {
    return await c.req.parseBody()
  } catch (cause) {
    throw inPieces(cause)
  }
}

function reading<T>(raw: Record<string, unknown>, schema: z.ZodType<T>): FormReading<T> {
  const typed = typedIn(raw)
  const parsed = schema.safeParse(raw)
  if (parsed.success) return { kind: 'read', value: parsed.data, typed }
  const problems: Problems = {}
  for (const issue of parsed.error.issues) problems[String(issue.path[0] ?? 'form')] ??= issue.message
  return { kind: 'unreadable', problems, typed }
}

/** A password is never sent back; of a file only its name is. */
function typedIn(raw: Record<string, unknown>): Typed {
  const typed: Typed = {}
  for (const [name, value] of Object.entries(raw)) {
    if (typeof value === 'string' && !/password/i.test(name)) typed[name] = value
    if (value instanceof File && value.size > 0) typed[name] = value.name
  }
  return typed
}
