// The fields of a form as they arrive: nothing of a file is held here, however large it is.
import { on, once } from 'node:events'
import { Readable } from 'node:stream'
import { text } from 'node:stream/consumers'
import { Busboy, type BusboyInstance } from '@fastify/busboy'
import type { Context } from 'hono'
import { HTTPException } from 'hono/http-exception'
import type { Env } from './env.ts'
import { inPieces } from './read.ts'
import { FILE, SMALL, tooLarge } from './security.ts'

/** `content`: its bytes, to be read before the next part is asked for; what is left of them is passed over then. */
export type BodyPart = { name: string; fileName: string | undefined; content: AsyncIterable<Uint8Array> }

/** The parts of a form in the order sent. One that is not made for files is small, and read at once. */
export async function* partsOf(c: Context<Env>): AsyncGenerator<BodyPart> {
  const type = c.req.header('content-type') ?? ''
  if (/^multipart\/form-data/i.test(type)) return yield* streamed(bodyOf(c, FILE), type)
  for (const [name, value] of new URLSearchParams(await text(bodyOf(c, SMALL))))
    yield { name, fileName: undefined, content: Readable.from([Buffer.from(value)]) }
}

/** A form of ours has three fields with two heads each. */
const limits = { parts: 10, headerPairs: 10, headerSize: 4096 }

async function* streamed(body: AsyncGenerator<Uint8Array>, type: string): AsyncGenerator<BodyPart> {
  const parser = parserOf(type)
  let open: Readable | undefined
  parser.on('file', (_, content) => {
    open = content
    content.on('error', () => {}) // its reader is told; nobody may be reading just now
  })
  const parts = on(parser, 'file', { close: ['finish'] })
  const fed = feed(body, parser).catch((error: Error) => {
    open?.destroy(error)
    parser.destroy(error)
  })
  try {
    for await (const [name, content, fileName] of parts) {
      yield { name: String(name), fileName, content: bytesIn(content) }
      for await (const _ of bytesIn(content)); // the parser goes on when all of it is read
    }
    await fed
  } catch (error) {
    throw error instanceof HTTPException ? error : inPieces(error)
  } finally {
    await body.return(undefined)
  }
}

/** Every part is a stream, the short ones too. */
function parserOf(type: string): BusboyInstance {
  try {
    return new Busboy({ headers: { 'content-type': type }, limits, isPartAFile: () => true })
  } catch (error) {
    throw inPieces(error)
  }
}

async function feed(body: AsyncIterable<Uint8Array>, parser: BusboyInstance): Promise<void> {
  for await (const chunk of body) if (!parser.write(chunk)) await once(parser, 'drain')
  parser.end()
}

/** Stays open when it is left, so that what follows can be passed over. */
async function* bytesIn(content: Readable): AsyncGenerator<Uint8Array> {
  try {
    yield* content.iterator({ destroyOnReturn: false })
  } catch (error) {
    throw error instanceof HTTPException ? error : inPieces(error)
  }
}

/** The body of a request, refused as soon as it is known to be larger than this. */
async function* bodyOf(c: Context<Env>, largest: number): AsyncGenerator<Uint8Array> {
  if (Number(c.req.header('content-length') ?? 0) > largest) throw tooLarge()
  const reader = c.req.raw.body?.getReader()
  let size = 0
  try {
    for (;;) {
      const next = await reader?.read()
      if (!next || next.done) return
      size += next.value.length
      if (size > largest) throw tooLarge()
      yield next.value
    }
  } finally {
    await reader?.cancel()
  }
}
