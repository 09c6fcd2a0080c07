// What cannot be done with an account, a name, a password or a link, in a sentence.
import type { PeopleRefusals } from '../../app/terms/refusals-people.ts'
import { roleActWords, roleWords } from './people.ts'

export const peopleRefusals: { [C in keyof PeopleRefusals]: (facts: PeopleRefusals[C]) => string } = {
  'person/missing': () => 'There is no such person',
  'person/active': ({ name }) => `${name} is active`,
  'person/inactive': ({ name }) => `${name} is not active any more`,
  'person/deactivated-before': ({ name }) => `${name} was deactivated before`,
  'person/role-changed': ({ name }) => `The role of ${name} was changed meanwhile`,
  'person/last-manager': () => 'This is the last manager: make somebody else a manager first',
  'person/added-otherwise': ({ name }) => `This form was sent before and added ${name} with another password`,
  'example/people-only': () => 'Only the people of an example sign in without a password',
  'example/name-taken': () => 'Somebody of the example has that name',
  'firm/set-up-before': () => 'The service was set up before: sign in',
  'firm/has-manager': () => 'There is an active manager by now, who can reset passwords and add people',

  'name/taken': ({ name }) => `There is a person named ${name} already`,
  'name/length': () => 'A name has 1 to 80 characters',
  'name/blank': () => 'It holds a character that looks like nothing: type it instead of pasting it',
  'name/without-letters': () => 'A name has letters',
  'name/uncommon-script': () => 'It holds letters of a script that is not in common use',
  'name/mixed-scripts': ({ scripts }) =>
    `It mixes letters of ${listed(scripts)}, some of which look alike: use letters of one script`,

  'password/short': ({ least }) => `At least ${least} characters`,
  'password/few-different': ({ least }) => `At least ${least} different characters`,
  'password/common': () => 'This is one of the most common passwords, which are tried first: choose another',
  'password/product': () => 'It holds the name of this program, which is tried first: choose another',
  'password/own-name': ({ part }) => `It holds “${part}” of the name, which is tried first: choose another`,
  'password/present-one': () => 'This is the present one: choose another',
  'password/own-page': () => 'Your own password is changed on your own page',
  'password/wrong': () => 'The password is not right',
  'password/sign-in': () => 'The name or the password is not right',
  'password/too-many-wrong': ({ seconds }) => `Too many wrong passwords: try again in ${spoken(seconds)}`,
  'password/crowd': () => 'Too much at once: try again in a moment',
  'link/used-up': ({ purpose }) => usedUp[purpose],
  'link/inactive': () => 'The account of this link is not active any more',

  'standing/temporary-password': () => 'Choose a password of your own first',
  'standing/deactivated': ({ name }) => `The account of ${name} was deactivated meanwhile`,
  'standing/reset': ({ name }) => `The password of ${name} was reset meanwhile`,
  'standing/role-changed': ({ name }) => `The role of ${name} was changed meanwhile: load the page again`,
  'standing/role': ({ role, act, name, own }) =>
    `Only a ${roleWords[role]} may ${roleActWords[act]}; ${name} is signed in as ${roleWords[own]}`,
  'key/used': ({ before }) =>
    `${usedBefore[before]}. What stands here was not done: look it through and send it once more`,
}

const usedUp = {
  'set-up':
    'This set-up link was used or is too old: sign in, or where nobody has an account yet start the service again and look at its console',
  'new-password': 'This link was used, replaced by a later one, or is too old: ask a manager for another',
  'new-manager': 'This link was used or is too old: make another one on the machine that runs the service',
}

const usedBefore = {
  'by-other': 'This form was sent before by somebody else',
  'for-other': 'This form was sent before for something else',
  'with-other-values': 'This form was sent before with other values, and those were taken',
}

function spoken(seconds: number): string {
  return seconds < 120 ? `${seconds} ${seconds === 1 ? 'second' : 'seconds'}` : `${Math.ceil(seconds / 60)} minutes`
}

function listed(words: readonly string[]): string {
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}
