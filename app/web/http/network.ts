// Which network a client comes from: what attempts and questions are counted by, where no person is known.
import { BlockList, isIP } from 'node:net'
import { getConnInfo } from '@hono/node-server/conninfo'
import type { Context, MiddlewareHandler } from 'hono'
import type { Env } from './env.ts'

/** Of a client whose address nobody knows: its connection is gone already, or there never was one. All of them are one network. */
export const UNKNOWN_NETWORK = 'unknown'

/** Puts the client's network into the context of every request. `proxies`: our own, as TRUSTED_PROXY names them. */
export function network(proxies: readonly string[]): MiddlewareHandler<Env> {
  const ours = proxyList(proxies)
  return async (c, next) => {
    c.set('network', networkFrom(peerOf(c), c.req.header('x-forwarded-for'), ours))
    await next()
  }
}

/**
 * The network of the client behind a connection from `peer`: an IPv4 address, or the first 64 bits of an IPv6 address,
 * of which one household or one machine has them all. `forwarded` is believed from a proxy of ours alone, and there only
 * as far as our proxies wrote it: read from the right, the first address that is none of ours is the client's.
 */
export function networkFrom(peer: string | undefined, forwarded: string | undefined, ours: BlockList): string {
  const hops = [...(forwarded ?? '').split(','), peer ?? '']
  let nearest: Address | undefined
  for (const hop of hops.reverse()) {
    const address = addressFrom(hop)
    if (address === undefined) break // what a proxy of ours could not read is not guessed at: its own address counts
    nearest = address
    if (!ours.check(address.text, address.family)) break
  }
  return nearest === undefined ? UNKNOWN_NETWORK : nameOf(nearest)
}

/** Addresses and ranges such as 10.0.0.2 or fd00::/8. Throws RangeError for one that is neither. */
export function proxyList(proxies: readonly string[]): BlockList {
  const list = new BlockList()
  for (const proxy of proxies) {
    const [start = '', length, ...rest] = proxy.split('/')
    const address = addressFrom(start)
    const longest = address?.family === 'ipv4' ? 32 : 128
    const bits = length === undefined ? longest : /^\d{1,3}$/.test(length) ? Number(length) : longest + 1
    if (address === undefined || bits > longest || rest.length > 0)
      throw new RangeError(`an address or a range was expected, not ${proxy}`)
    list.addSubnet(address.text, bits, address.family)
  }
  return list
}

type Address = { family: 'ipv4' | 'ipv6'; text: string }

/** Also with a port, as some proxies write it; an IPv4 address in IPv6 clothes is the IPv4 address. */
function addressFrom(written: string): Address | undefined {
  const text = written
    .trim()
    .replace(/^\[([^\]]+)\](:\d+)?$/, '$1')
    .replace(/^([\d.]+):\d+$/, '$1')
    .replace(/%.*$/, '')
  if (isIP(text) === 4) return { family: 'ipv4', text }
  if (isIP(text) !== 6) return undefined
  const groups = groupsOf(text)
  if (groups.slice(0, 6).join() !== '0,0,0,0,0,65535') return { family: 'ipv6', text }
  const bytes = groups.slice(6).flatMap((group) => [group >> 8, group & 255])
  return { family: 'ipv4', text: bytes.join('.') }
}

function nameOf({ family, text }: Address): string {
  if (family === 'ipv4') return text
  const network = groupsOf(text).slice(0, 4)
  return `${network.map((group) => group.toString(16)).join(':')}::/64`
}

/** The eight groups of an IPv6 address. The URL's own reader knows every way to write one, and writes it in one way. */
function groupsOf(address: string): number[] {
  const [left = '', right] = new URL(`http://[${address}]`).hostname.slice(1, -1).split('::')
  const read = (part: string) => (part === '' ? [] : part.split(':').map((group) => Number.parseInt(group, 16)))
  const [before, after] = [read(left), read(right ?? '')]
  return [...before, ...Array<number>(8 - before.length - after.length).fill(0), ...after]
}

/** Requests of tests have no socket; what they hand over as one is read like one. */
function peerOf(c: Context<Env>): string | undefined {
  return typeof c.env === 'object' && c.env !== null && 'incoming' in c.env ? getConnInfo(c).remote.address : undefined
}
