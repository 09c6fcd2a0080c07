// Where a client comes from: its own address, or what our own proxy says, and nobody else.
import { Hono } from 'hono'
import { describe, expect, test } from 'vitest'
import type { Env } from '../../../app/web/http/env.ts'
import { network, networkFrom, proxyList, UNKNOWN_NETWORK } from '../../../app/web/http/network.ts'

// addresses for documentation: RFC 5737 and RFC 3849
const proxies = proxyList(['10.0.0.2', '192.0.2.0/24', 'fd00::/8'])

describe('the network of a client', () => {
  test.each([
    ['an IPv4 address is one network', '203.0.113.7', undefined, '203.0.113.7'],
    ['an IPv6 address counts by its first 64 bits', '2001:db8:0:1:aaaa::1', undefined, '2001:db8:0:1::/64'],
    ['whatever the other half is', '2001:0DB8:0:1::ffff', undefined, '2001:db8:0:1::/64'],
    ['a zone is no part of the address', 'fe80::1%eth0', undefined, 'fe80:0:0:0::/64'],
    ['IPv4 in IPv6 clothes is IPv4', '::ffff:203.0.113.7', undefined, '203.0.113.7'],
    ['also in hexadecimal (RFC 4291, 2.5.5.2)', '::ffff:cb00:7107', undefined, '203.0.113.7'],
    ['nobody else is believed', '203.0.113.7', '198.51.100.1', '203.0.113.7'],
    ['nor a neighbour of our proxy', '10.0.0.3', '198.51.100.1', '10.0.0.3'],
    ['our proxy is believed', '10.0.0.2', '198.51.100.1', '198.51.100.1'],
    ['also where it speaks IPv6', '::ffff:10.0.0.2', '198.51.100.1', '198.51.100.1'],
    ['not what the client wrote before it', '10.0.0.2', '127.0.0.1, 198.51.100.1', '198.51.100.1'],
    ['through a row of our proxies', '10.0.0.2', '198.51.100.1, fd00::5, 192.0.2.9', '198.51.100.1'],
    ['not beyond a proxy of somebody else', '10.0.0.2', '198.51.100.1, 203.0.113.9, 192.0.2.9', '203.0.113.9'],
    ['with a port', '10.0.0.2', '198.51.100.1:4711', '198.51.100.1'],
    ['with brackets and a port', '10.0.0.2', '[2001:db8::1]:4711', '2001:db8:0:0::/64'],
    ['our own machines are a network too', '10.0.0.2', '192.0.2.4', '192.0.2.4'],
    ['what cannot be read is not guessed at', '10.0.0.2', '198.51.100.1, nonsense', '10.0.0.2'],
    ['no word of our proxy', '10.0.0.2', undefined, '10.0.0.2'],
    ['no address', undefined, '198.51.100.1', UNKNOWN_NETWORK],
  ])('%s', (_, peer, forwarded, expected) => {
    expect(networkFrom(peer, forwarded, proxies)).toBe(expected)
  })

  test.each(['10.0.0.0/33', '10.0.0', '::1/129', '10.0.0.0/8/8', '10.0.0.0/x', 'proxy.example', ''])(
    'is not asked of a proxy named %j',
    (proxy) => {
      expect(() => proxyList([proxy])).toThrow(RangeError)
    },
  )

  test('stands in the context of every request, with a socket and without', async () => {
    const app = new Hono<Env>().use(network(['10.0.0.2'])).get('/', (c) => c.text(c.var.network))
    const behind = { incoming: { socket: { remoteAddress: '10.0.0.2' } } }
    const headers = { 'x-forwarded-for': '198.51.100.1' }
    expect(await (await app.request('/', { headers }, behind)).text()).toBe('198.51.100.1')
    expect(await (await app.request('/', { headers })).text()).toBe(UNKNOWN_NETWORK)
  })
})
