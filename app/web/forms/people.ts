// What the pages of people take.

import { z } from 'zod'
import { choice, formKey, optionalText, password, text, wholeNumber } from '../../kit/fields.ts'
import { largestId, lengths } from '../../kit/limits.ts'
import { roles } from '../../terms/person.ts'

const name = text('Type a name', lengths.person)
const role = choice(roles, 'Choose a role')

const newPassword = password('Type a password')
const ownPassword = password('Type your password')

const differing = { path: ['passwordAgain'], error: 'The two passwords differ' }

export const signInForm = z.object({ name: text('Type your name', lengths.person), password: ownPassword })

export const passwordForm = z
  .object({ password: ownPassword, newPassword, passwordAgain: z.string().default('') })
  .refine((form) => form.newPassword === form.passwordAgain, differing)

export const exampleForm = z.object({ person: wholeNumber({ from: 1, to: largestId }, 'Choose a person') })

export const personForm = z.object({ key: formKey, name, role, password: newPassword })

export const roleForm = z.object({ seen: role, role })

export const chosenPasswordForm = z
  .object({ password: newPassword, passwordAgain: z.string().default('') })
  .refine((form) => form.password === form.passwordAgain, differing)

export const newManagerForm = z
  .object({ name, password: newPassword, passwordAgain: z.string().default('') })
  .refine((form) => form.password === form.passwordAgain, differing)

export const setUpForm = z
  .object({
    name,
    password: newPassword,
    passwordAgain: z.string().default(''),
    start: choice(['empty', 'example'], 'Choose how to start'),
    firm: optionalText(lengths.name),
  })
  .refine((form) => form.password === form.passwordAgain, differing)
  .refine((form) => form.start === 'example' || form.firm !== '', {
    path: ['firm'],
    error: 'Type the name of your firm',
  })
