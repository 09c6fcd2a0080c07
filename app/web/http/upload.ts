// Reads a form that sends a file or, pasted into a field, its text: the file is read while it arrives.
import type { Context } from 'hono'
import { formKey } from '../../kit/fields.ts'
import type { Problems, Typed } from '../../kit/problems.ts'
import type { Env } from './env.ts'
import { partsOf } from './parts.ts'

type Bytes = AsyncIterable<Uint8Array>

export type Upload<T> =
  | { kind: 'read'; key: string; content: T; typed: Typed }
  | { kind: 'unreadable'; problems: Problems; typed: Typed }

/** A longer text is not sent back to be corrected by hand: it would take longer than the file it came from. */
const longestTyped = 64 * 1024

/**
 * Hands what the field `file` or the field `text` holds to `read`, and returns what that made of it, with the form's key.
 * A blank field counts as none. A pasted text comes back in `typed` unless it is long; of a file only its name does.
 */
export async function readUpload<T>(c: Context<Env>, read: (content: Bytes) => Promise<T>): Promise<Upload<T>> {
  let sentKey = ''
  const typed: Typed = {}
  const contents: T[] = []
  const problems: Problems = {}
  for await (const { name, fileName, content } of partsOf(c)) {
    const { head, whole, again } = await begun(content)
    if (name === 'key') sentKey = head
    if ((name !== 'file' && name !== 'text') || (whole && head.trim() === '')) continue
    if (contents.length > 0) problems.file = 'Choose a file or paste its lines, not both'
    else contents.push(await read(again))
    if (fileName) typed.file = fileName
    if (name === 'text' && whole) typed.text = head
  }
  const key = formKey.safeParse(sentKey)
  if (!key.success) problems.form = key.error.issues[0]?.message ?? ''
  const [content] = contents
  if (content === undefined) problems.file = 'Choose a file, or paste its lines below'
  if (content === undefined || !key.success || problems.file) return { kind: 'unreadable', problems, typed }
  return { kind: 'read', key: key.data, content, typed }
}

/** What a field begins with, whether that is all of it, and all of it from the beginning. */
async function begun(content: Bytes): Promise<{ head: string; whole: boolean; again: Bytes }> {
  const rest = content[Symbol.asyncIterator]()
  const chunks: Uint8Array[] = []
  let size = 0
  let whole = false
  while (!whole && size <= longestTyped) {
    const next = await rest.next()
    if (next.done) whole = true
    else {
      chunks.push(next.value)
      size += next.value.length
    }
  }
  return { head: Buffer.concat(chunks).toString(), whole, again: followed(chunks, rest) }
}

async function* followed(chunks: Uint8Array[], rest: AsyncIterator<Uint8Array>): AsyncGenerator<Uint8Array> {
  yield* chunks
  yield* { [Symbol.asyncIterator]: () => rest }
}
