// New passwords: long, and none of those that are guessed first.
import { describe, expect, test } from 'vitest'
import { refuseGuessable } from '../../../app/people/passwords/new-password.ts'
import { aloudAtOnce } from '../../support/refusals.ts'

const check = (password: string, name = 'Mara von Manager') => refuseGuessable(password, { name, field: 'password' })

describe('a new password', () => {
  test.each([
    ['of eleven characters', 'elevenchars', 'At least 12 characters'],
    ['of one character again and again', 'aaaaaaaaaaaaaaaa', 'different characters'],
    ['of twelve spaces', ' '.repeat(12), 'different characters'],
    // in the common lists of every year since 2010, at length 12 and more
    ['that is common', '1qaz2wsx3edc', 'most common passwords'],
    ['that is common, in capitals', 'QWERTY123456', 'most common passwords'],
    ['that is common, in wide letters', 'ｑｗｅｒｔｙ123456', 'most common passwords'],
    ['with the first name', 'my-name-is-MARA-44', '“mara” of the name'],
    ['with the last name', 'themanager!pass', '“manager” of the name'],
    ['with the product’s name', 'Cordsift-2031-x', 'the name of this program'],
  ])('%s is refused', (_, password, reason) => {
    expect(aloudAtOnce(() => check(password))).toThrow(reason)
  })

  test('is held against a whole name of short words, run together', () => {
    expect(aloudAtOnce(() => check('xx-boli-xx-77', 'Bo Li'))).toThrow('“boli” of the name')
  })

  test.each([
    ['twelve characters', 'twelve chars'],
    ['a part of the name that is shorter than four letters', 'von weather station'],
    ['other letters than Latin ones', 'дождь над крышей'],
  ])('of %s is taken', (_, password) => {
    expect(() => check(password)).not.toThrow()
  })
})
