// The server before the pages: its limits, and the answers that it gives by itself, with the headers of every other.
import { createServer, type IncomingMessage, type Server, type ServerResponse, STATUS_CODES } from 'node:http'
import type { Duplex } from 'node:stream'
import { getRequestListener, RequestError } from '@hono/node-server'
import { Hono } from 'hono'
import { headers } from './security.ts'

/** A browser keeps a connection for a minute; what is slower than these is somebody holding the door open. */
const limits = {
  requestTimeout: 60_000,
  headersTimeout: 15_000,
  connectionsCheckingInterval: 1000,
  keepAliveTimeout: 65_000,
}
const mostConnections = 1000

type Fetch = Parameters<typeof getRequestListener>[0]

/** A server that hands whole requests to `fetch` and refuses all others by itself. */
export async function listener(fetch: Fetch, https: boolean): Promise<Server> {
  const own = await ownHeaders(https)
  const errorHandler = (error: unknown) => {
    const status = error instanceof RequestError ? 400 : 500
    return new Response(`${STATUS_CODES[status]}\n`, { status, headers: own })
  }
  const server = createServer(limits, getRequestListener(fetch, { errorHandler }))
  server.maxConnections = mostConnections
  answerUnreadable(server, own)
  return server
}

/** Headers of every answer, as the pages have them. */
async function ownHeaders(https: boolean): Promise<Record<string, string>> {
  const plain = new Hono().use(headers(https)).get('/', (c) => c.body(null))
  return { ...Object.fromEntries((await plain.request('/')).headers), 'cache-control': 'no-store' }
}

/** Answers a request that cannot be read, comes too slowly, has too long a head, or expects what is not there. */
function answerUnreadable(server: Server, own: Record<string, string>): void {
  server.on('clientError', (error: NodeJS.ErrnoException, socket: Duplex) => {
    if (error.code === 'ECONNRESET' || !socket.writable) socket.destroy()
    else socket.end(rawAnswer(statusOf(error.code), own))
  })
  server.on('checkExpectation', (_request: IncomingMessage, response: ServerResponse) => {
    response.writeHead(417, { ...own, 'Content-Type': 'text/plain; charset=utf-8' }).end(`${STATUS_CODES[417]}\n`)
  })
}

function statusOf(code: string | undefined): number {
  if (code === 'HPE_HEADER_OVERFLOW') return 431
  return code === 'ERR_HTTP_REQUEST_TIMEOUT' ? 408 : 400
}

function rawAnswer(status: number, own: Record<string, string>): string {
  const body = `${STATUS_CODES[status]}\n`
  const all = {
    ...own,
    'content-type': 'text/plain; charset=utf-8',
    'content-length': String(body.length),
    connection: 'close',
  }
  const lines = Object.entries(all).map(([name, value]) => `${name}: ${value}`)
  return `HTTP/1.1 ${status} ${STATUS_CODES[status]}\r\n${lines.join('\r\n')}\r\n\r\n${body}`
}
