// Answers that are worth it go compressed: pages as they are made, the assets once for all at the start.
import { promisify } from 'node:util'
import { gzip } from 'node:zlib'
import type { MiddlewareHandler } from 'hono'
import { COMPRESSIBLE_CONTENT_TYPE_REGEX } from 'hono/utils/compress'
import type { Env } from './env.ts'

/** In bytes: what is smaller fits into one packet either way, and would only cost both sides work. */
const WORTH_IT = 1024

const zipped = promisify(gzip)

/** An answer that says its own length is left as it is. Every other text is sent whole, with its length. */
export const compressed: MiddlewareHandler<Env> = async (c, next) => {
  await next()
  const { headers, body } = c.res
  const type = headers.get('Content-Type') ?? ''
  if (!body || headers.has('Content-Length') || !COMPRESSIBLE_CONTENT_TYPE_REGEX.test(type)) return
  varyByEncoding(headers)
  if (c.req.method === 'HEAD') return
  const plain = new Uint8Array(await c.res.arrayBuffer())
  const encoding = plain.length < WORTH_IT ? undefined : encodingFor(c.req.header('Accept-Encoding'), ['gzip' as const])
  const sent = encoding ? new Uint8Array(await zipped(plain)) : plain
  c.res = new Response(sent, c.res)
  c.res.headers.set('Content-Length', String(sent.length))
  if (encoding) c.res.headers.set('Content-Encoding', encoding)
}

/** Of the encodings on offer the one that the browser likes best, the earlier of two it likes alike; undefined where it takes none. */
export function encodingFor<E extends string>(accepted: string | undefined, offered: readonly E[]): E | undefined {
  const liking = new Map((accepted ?? '').split(',').map(likedIn))
  const likingOf = (name: string) => liking.get(name) ?? liking.get('*') ?? 0
  return offered.toSorted((one, other) => likingOf(other) - likingOf(one)).find((name) => likingOf(name) > 0)
}

export function varyByEncoding(headers: Headers): void {
  const before = headers.get('Vary')
  if (before && /(^|,)\s*(\*|accept-encoding)\s*(,|$)/i.test(before)) return
  headers.set('Vary', before ? `${before}, Accept-Encoding` : 'Accept-Encoding')
}

/** One entry of the header, such as gzip or br;q=0.8. */
function likedIn(entry: string): [string, number] {
  const [name = '', ...parameters] = entry.split(';').map((part) => part.trim().toLowerCase())
  const quality = parameters.find((parameter) => parameter.startsWith('q='))
  return [name, quality === undefined ? 1 : Number(quality.slice(2)) || 0]
}
