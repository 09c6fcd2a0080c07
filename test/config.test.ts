// The environment: what holds without any setting, what each setting does, and what is refused by name.
import { resolve } from 'node:path'
import { describe, expect, test } from 'vitest'
import { readConfig } from '../app/config.ts'

describe('the configuration', () => {
  test('without any setting is for this machine alone', () => {
    expect(readConfig({ DATA_DIR: 'data' })).toEqual({
      host: '127.0.0.1',
      port: 3000,
      place: { folder: resolve('data') },
      origin: undefined,
      trustedProxies: [],
      logLevel: 'info',
      currency: 'EUR',
      timeZone: new Intl.DateTimeFormat().resolvedOptions().timeZone,
      separateDuties: true,
      notice: undefined,
    })
  })

  test('takes an empty value for none', () => {
    expect(readConfig({ DATA_DIR: 'x', PORT: '', DATABASE_URL: '', ORIGIN: '' })).toMatchObject({
      port: 3000,
      origin: undefined,
    })
  })

  test.each([
    [
      { HOST: '0.0.0.0', PORT: '0' },
      { host: '0.0.0.0', port: 0 },
    ],
    [
      { HOST: '::1', PORT: '65535' },
      { host: '::1', port: 65_535 },
    ],
    [{ DATABASE_URL: 'postgres://a:b@c:1/d' }, { place: { url: 'postgres://a:b@c:1/d' } }],
    [
      { DATABASE_URL: 'postgres://a:b@c:1/d', DATABASE_OWNER_URL: 'postgres://o:p@c:1/d' },
      { place: { url: 'postgres://a:b@c:1/d', owner: 'postgres://o:p@c:1/d' } },
    ],
    [{ DATA_DIR: '/srv/cordsift' }, { place: { folder: '/srv/cordsift' } }],
    [{ ORIGIN: 'https://cordsift.example' }, { origin: 'https://cordsift.example' }],
    [{ TRUSTED_PROXY: '10.0.0.2, fd00::/8' }, { trustedProxies: ['10.0.0.2', 'fd00::/8'] }],
    [{ ONE_PERSON_FIRM: 'on' }, { separateDuties: false }],
    [
      { CURRENCY: 'SEK', LOG_LEVEL: 'debug', TIME_ZONE: 'Asia/Tokyo' },
      { currency: 'SEK', logLevel: 'debug', timeZone: 'Asia/Tokyo' },
    ],
  ])('takes %o', (env, config) => {
    expect(readConfig(env)).toMatchObject(config)
  })

  test.each([
    ['PORT', '65536'],
    ['PORT', '-1'],
    ['PORT', '3000.5'],
    ['PORT', '1e3'],
    ['HOST', 'http://me'],
    ['ORIGIN', 'https://cordsift.example/'],
    ['ORIGIN', 'ftp://cordsift.example'],
    ['ORIGIN', 'cordsift.example'],
    ['TRUSTED_PROXY', 'proxy.example'],
    ['TRUSTED_PROXY', '10.0.0.0/33'],
    ['TRUSTED_PROXY', '10.0.0.2,'],
    ['DATABASE_URL', 'localhost:5432'],
    ['DATABASE_OWNER_URL', 'mysql://a:b@c/d'],
    ['CURRENCY', 'eur'],
    ['TIME_ZONE', 'Mars/Olympus'],
    ['LOG_LEVEL', 'trace'],
    ['ONE_PERSON_FIRM', 'true'],
  ])('refuses %s=%s by name', (name, value) => {
    expect(() => readConfig({ [name]: value })).toThrow(new RegExp(`^${name}=.*cannot be used: it must be `))
  })

  test('repeats no address of a database, and takes an owner only beside the service’s login', () => {
    const bad = { DATABASE_URL: 'x:secret@y', DATABASE_OWNER_URL: 'x:secret@y' }
    expect(() => readConfig(bad)).toThrow(/^DATABASE_URL=cannot.*\nDATABASE_OWNER_URL=cannot/)
    expect(() => readConfig({ DATABASE_OWNER_URL: 'postgres://a:b@c:1/d' })).toThrow('cannot be used alone')
  })

  test('names every bad value at once', () => {
    expect(() => readConfig({ PORT: 'x', CURRENCY: 'x' })).toThrow(/^PORT=.*\nCURRENCY=.*$/)
  })
})
