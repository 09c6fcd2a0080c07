// What the server answers before a request reaches a page, over a real socket.
import type { AddressInfo } from 'node:net'
import { connect } from 'node:net'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { listener } from '../../../app/web/http/listener.ts'
import { testApp } from '../../support/app.ts'
import { freshDatabase } from '../../support/database.ts'

const { db } = await freshDatabase()
const server = await listener(testApp(db).app.fetch, false)
beforeAll(() => new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve)))
afterAll(() => server.closeAllConnections())
afterAll(() => new Promise((resolve) => server.close(resolve)))

function say(text: string): Promise<string> {
  const { port } = server.address() as AddressInfo
  return new Promise((resolve, reject) => {
    let heard = ''
    const socket = connect(port, '127.0.0.1', () => socket.write(text))
    socket.on('data', (piece) => {
      heard += piece.toString()
    })
    socket.on('close', () => resolve(heard))
    socket.on('error', reject)
  })
}

describe('an answer that Node gives by itself', () => {
  const head = 'Host: localhost\r\nConnection: close\r\n'
  // Status codes: RFC 9110 15.5.1 and 15.5.18, RFC 6585 5.
  test.each([
    ['no request at all', 'nonsense\r\n\r\n', 400],
    ['a head that is too long', `GET / HTTP/1.1\r\nX: ${'x'.repeat(20_000)}\r\n\r\n`, 431],
    ['two lengths', `POST / HTTP/1.1\r\n${head}Content-Length: 1\r\nContent-Length: 2\r\n\r\nab`, 400],
    ['an expectation that nobody meets', `GET / HTTP/1.1\r\n${head}Expect: wonders\r\n\r\n`, 417],
    ['a Host that is none', 'GET / HTTP/1.1\r\nHost: a b\r\nConnection: close\r\n\r\n', 400],
    ['a backslash in the path', `GET /\\x HTTP/1.1\r\n${head}\r\n`, 400],
  ])('%s carries our headers', async (_name, request, status) => {
    const heard = (await say(request)).toLowerCase()
    expect(heard).toMatch(new RegExp(`^http/1.1 ${status} `))
    expect(heard).toContain("content-security-policy: default-src 'none'")
    expect(heard).toContain('x-content-type-options: nosniff')
    expect(heard).toContain('cache-control: no-store')
  })

  test('and a whole request is answered by a page', async () => {
    expect(await say(`GET /healthz HTTP/1.1\r\n${head}\r\n`)).toContain('alive')
  })
})

test('bounds who comes: connections, slow heads and kept connections each have an end', () => {
  const { maxConnections, headersTimeout, keepAliveTimeout, requestTimeout } = server
  expect({ maxConnections, headersTimeout, keepAliveTimeout, requestTimeout }).toEqual({
    maxConnections: 1000,
    headersTimeout: 15_000,
    keepAliveTimeout: 65_000,
    requestTimeout: 60_000,
  })
})
