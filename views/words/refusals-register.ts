// What cannot be done with a supplier, an item or the many lots of either, in a sentence.
import type { RegisterRefusals } from '../../app/terms/refusals-register.ts'

export const registerRefusals: { [C in keyof RegisterRefusals]: (facts: RegisterRefusals[C]) => string } = {
  'supplier/missing': ({ supplier }) => `There is no supplier ${supplier}`,
  'supplier/name-length': () => 'A supplier needs a name of 1 to 120 characters',
  'supplier/name-taken': ({ name }) => `There is a supplier called ${name} already`,

  'item/missing': ({ item }) => `There is no item ${item}`,
  'item/unknown': () => 'There is no such item',
  'item/changed-since': () => 'The item was changed since this page was opened: look at it again',
  'item/name-taken': ({ name }) => `There is an item called ${name} already`,
  'item/name': () => 'The item needs a name (1 to 120 characters)',
  'item/category': () => 'Name the category that the maker claims (1 to 120 characters)',
  'item/cord-limit': () => 'Name the cord limit that is tested against, with its edition (1 to 120 characters)',
  'item/length': () => 'The length is above 0 and at most 100 m',
  'item/accuracy': () => 'The accuracy is from 0 to 20 dB, without a sign',
  'item/count-difference': () => 'A percentage from 0 to 100',
  'item/group-size': ({ least, most }) => `A group has from ${least} to ${most} cords`,
  'item/catch-of-100': () => 'Of 100 such lots, more than 0 and fewer than 100',
  'item/quality-limit': () => 'The standard’s tables have no such limit',
  'item/cost': () => 'A cost is from 0 to ten million, in whole cents',
  'item/too-many': () => 'Too many is a whole number of cords such as 5, or a share such as 1%',

  'clause/number': () =>
    'Give the number of the contract’s clause (1 to 40 characters), or leave number and text empty',
  'clause/text': () => 'Quote the contract’s clause (1 to 2,000 characters), or leave number and text empty',

  'series/missing': () => 'There is no such series of decided lots',
  'series/moved-on': () =>
    'The inspection state has changed since this page was opened: load the page of the supplier again',
  'series/reason': () => 'Give the reason (1 to 2,000 characters)',
  'percentage/percent': () => 'A percentage is above 0 and at most 100',
  'percentage/allowed': () => 'The acceptance number is a whole number from 0',
  'percentage/not-all-tested': ({ lot }) => `Not every cord of lot ${lot} was tested`,
}
