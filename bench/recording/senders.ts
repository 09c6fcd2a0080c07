// Inspectors who send the bench's form one cord after the other over connections that stay open, and what that takes.
import { randomUUID } from 'node:crypto'
import { Agent, request } from 'node:http'

/** Cords of one lot, from the first to the last position, by one inspector. */
export type Share = { cookie: string; lot: number; from: number; to: number }
/** `times`: milliseconds of each form, in rising order. */
export type Sent = { seconds: number; times: number[] }

/** All shares at once, each in its own order. Throws at the first form that is not recorded. */
export async function sendAll(address: string, shares: Share[]): Promise<Sent> {
  const agent = new Agent({ keepAlive: true, maxSockets: shares.length })
  const times: number[] = []
  const begun = performance.now()
  await Promise.all(
    shares.map(async ({ cookie, lot, from, to }) => {
      for (let position = from; position <= to; position++) {
        const sent = performance.now()
        const status = await post(agent, `${address}/lots/${lot}/bench`, cookie, formOf(position))
        if (status !== 303) throw new Error(`cord ${position} of lot ${lot}: ${status}`)
        times.push(performance.now() - sent)
      }
    }),
  )
  agent.destroy()
  return { seconds: (performance.now() - begun) / 1000, times: times.sort((one, other) => one - other) }
}

export function at(times: number[], share: number): string {
  return (times[Math.min(times.length - 1, Math.floor(times.length * share))] ?? Number.NaN).toFixed(1)
}

/** One cord in a hundred is short of the limit. */
function formOf(position: number): string {
  return new URLSearchParams({
    key: randomUUID(),
    position: String(position),
    kind: 'tested',
    crosstalkSide: position % 100 === 0 ? 'short' : 'above',
    crosstalkMargin: `${3 + (position % 7)}.${position % 10}`,
    returnLossSide: 'above',
    returnLossMargin: `${3 + (position % 5)}.4`,
    wireMap: 'in-order',
    visual: 'in-order',
    carton: '',
    spool: `SP-${Math.ceil(position / 500)}`,
    testerSerial: 'AT-0711',
  }).toString()
}

function post(agent: Agent, url: string, cookie: string, body: string): Promise<number> {
  const headers = {
    cookie,
    origin: new URL(url).origin,
    'content-type': 'application/x-www-form-urlencoded',
    'content-length': String(Buffer.byteLength(body)),
  }
  return new Promise((resolve, reject) => {
    const sending = request(url, { method: 'POST', agent, headers }, (answer) => {
      answer.resume().on('end', () => resolve(answer.statusCode ?? 0))
    })
    sending.on('error', reject).end(body)
  })
}
