// Names of people: readable, of one script, and unique in every form that looks the same.
import { randomUUID } from 'node:crypto'
import { beforeAll, describe, expect, test } from 'vitest'
import { addPerson } from '../../../app/people/accounts/add.ts'
import { checkedName } from '../../../app/people/accounts/name.ts'
import { signIn } from '../../../app/people/sessions/sign-in.ts'
import { freshDatabase } from '../../support/database.ts'
import { NETWORK, PASSWORD, type ThreePeople, threePeople } from '../../support/people.ts'
import { aloud, aloudAtOnce } from '../../support/refusals.ts'

const { db, owner } = await freshDatabase()
let three: ThreePeople
beforeAll(async () => {
  three = await threePeople(db)
})

const add = (name: string) =>
  addPerson(db, three.manager, { key: randomUUID(), name, role: 'officer', password: 'plain words in a row' })

describe('a name', () => {
  test.each([
    ['Mara Manager'],
    ['Åsa Öst-Ångström'],
    ['D’Arcy O’Neil'],
    ['Мария Иванова'],
    ['Μαρία Νικολάου'],
    ['山田さくら'], // Han and Hiragana are one way of writing: UTS 39, 5.1
    ['김 철수'],
    ['ﾔﾏﾀﾞ'],
    ['محمد'],
    ['நிலா'],
    ['Nora 2'],
  ])('%s is taken', (name) => {
    expect(checkedName(name)).toBe(name)
  })

  test('loses what stands around it, and spaces in a row', () => {
    expect(checkedName('  Mara \u00a0 Manager ')).toBe('Mara Manager')
  })

  test.each([
    ['a zero-width space in it', 'Mara\u200b Manager', 'without width'],
    ['a zero-width space alone', '\u200b', 'without width'],
    ['a mark that turns the direction', 'Mara\u202eManager', 'reading direction'],
    ['a line end', 'a\nb', 'line end'],
    ['a zero', 'a\u0000b', 'zero character'],
    ['a letter that is blank (U+3164)', 'Mara\u3164Manager', 'looks like nothing'],
    ['a joiner that shows nothing (U+034F)', 'Ma\u034fra', 'looks like nothing'],
    ['a blank of Braille (U+2800)', 'Mara\u2800', 'looks like nothing'],
    ['Cyrillic letters among Latin ones', 'Маra Manager', 'letters of Cyrillic and Latin'],
    ['a Greek letter among Latin ones', 'Mαra', 'letters of Latin and Greek'],
    ['letters of a script that few can read', 'ᚠᚢᚦ', 'not in common use'],
    ['no letter', '12 34', 'has letters'],
    ['nothing', '   ', '1 to 80 characters'],
    ['too much', 'x'.repeat(81), '1 to 80 characters'],
  ])('with %s is refused', (_, name, reason) => {
    expect(aloudAtOnce(() => checkedName(name))).toThrow(reason)
  })

  test.each([
    ['capitals', 'MARA MANAGER'],
    ['spaces', 'Mara  \u2003 Manager'],
    ['wide letters', 'Ｍａｒａ Manager'],
    ['mathematical letters', '𝐌ara Manager'],
    ['a ligature', 'Ivo Inﬆector', 'Ivo Instector'],
    ['capitals beyond ASCII', 'ÅSA ÖST', 'Åsa Öst'],
    ['Greek capitals with a final sigma', 'ΝΊΚΟΣ', 'Νίκος'],
    ['parts of a letter', 'A\u030asa', 'Åsa'],
  ])('that differs by %s is taken already', async (_, name, first = 'Mara Manager') => {
    if (first !== 'Mara Manager') await add(first)
    await expect(aloud(add(name))).rejects.toThrow('There is a person named')
  })

  test.each(['mara manager', '  MARA   MANAGER ', 'Ｍａｒａ Manager'])('signs in as %j', async (name) => {
    await expect(signIn(db, { name, password: PASSWORD, network: NETWORK })).resolves.toHaveLength(43)
  })

  test('is unique in the database itself', async () => {
    await expect(owner`insert into people (name, role) values ('mara  MANAGER', 'officer')`).rejects.toMatchObject({
      constraint_name: 'people_name',
    })
  })
})
