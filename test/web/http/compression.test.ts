// What is worth it arrives compressed and says what it says plain; what is not arrives as it is.
import { brotliDecompressSync, gunzipSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { encodingFor } from '../../../app/web/http/compression.ts'
import { assets } from '../../../views/assets.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'

const { db } = await freshDatabase()
const { app } = testApp(db)

const ask = (path: string, accepted?: string) =>
  app.request(`http://localhost${path}`, {
    headers: { host: 'localhost', ...(accepted === undefined ? {} : { 'accept-encoding': accepted }) },
  })
const bytes = async (answer: Response) => Buffer.from(await answer.arrayBuffer())

// RFC 9110, 12.5.3: a weight of 0 is not acceptable, * stands for what is not named.
test.each([
  ['gzip, deflate, br', 'br'],
  ['br;q=0.5, gzip', 'gzip'],
  ['br;q=0, gzip;q=0.1', 'gzip'],
  ['*', 'br'],
  ['GZIP', 'gzip'],
  ['*;q=0', undefined],
  ['identity', undefined],
  ['', undefined],
  [undefined, undefined],
] as const)('of brotli and gzip a browser that says %j gets %s', (accepted, encoding) => {
  expect(encodingFor(accepted, ['br', 'gzip'] as const)).toBe(encoding)
})

// A font is packed by its own format (WOFF2): packing it again gains nothing.
test.each(assets.filter(({ type }) => type.startsWith('font/')))('$path is sent as it is', async ({ path, body }) => {
  const answer = await ask(path, 'gzip, br')
  expect(answer.headers.get('content-encoding')).toBeNull()
  expect((await bytes(answer)).equals(body)).toBe(true)
})

describe.each(assets.filter(({ type }) => !type.startsWith('font/')))('$path', ({ path, body }) => {
  test('is the same by every encoding, with its length', async () => {
    for (const [accepted, encoding, undo] of [
      ['gzip, br', 'br', brotliDecompressSync],
      ['gzip', 'gzip', gunzipSync],
    ] as const) {
      const answer = await ask(path, accepted)
      expect(answer.headers.get('content-encoding')).toBe(encoding)
      expect(answer.headers.get('vary')).toBe('Accept-Encoding')
      const sent = await bytes(answer)
      expect(answer.headers.get('content-length')).toBe(String(sent.length))
      expect(undo(sent).equals(body)).toBe(true)
    }
    const plain = await ask(path)
    expect((await bytes(plain)).equals(body)).toBe(true)
  })
})

test('a page arrives by gzip as it would plain', async () => {
  const [plain, small] = [await ask('/?lot=480&limit=5'), await ask('/?lot=480&limit=5', 'gzip, br')]
  expect(plain.headers.get('content-encoding')).toBeNull()
  expect(small.headers.get('content-encoding')).toBe('gzip')
  expect(small.headers.get('vary')).toContain('Accept-Encoding')
  const sent = await bytes(small)
  expect(small.headers.get('content-length')).toBe(String(sent.length))
  expect(gunzipSync(sent).toString()).toBe(await plain.text())
})

test('a few bytes arrive as they are', async () => {
  const answer = await ask('/healthz', 'gzip, br')
  expect(answer.headers.get('content-encoding')).toBeNull()
  expect([answer.headers.get('content-length'), await answer.text()]).toEqual(['6', 'alive\n'])
})
