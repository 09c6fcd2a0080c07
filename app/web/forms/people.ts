// What the pages of people take.

import { z } from 'zod'
import { choice, formKey, optionalText, text, wholeNumber } from '../../kit/fields.ts'
import { lengths } from '../../kit/limits.ts'
import { roles } from '../../terms/person.ts'

const name = text('Type a name', 80)
const role = choice(roles, 'Choose a role')

const newPassword = z
  .string({ error: 'Type a password' })
  .min(1, { error: 'Type a password' })
  .max(1000, { error: 'At most 1000 characters' })

const ownPassword = z
  .string({ error: 'Type your password' })
  .min(1, { error: 'Type your password' })
  .max(1000, { error: 'At most 1000 characters' })

export const signInForm = z.object({ name: text('Type your name', 80), password: ownPassword })

export const passwordForm = z
  .object({ password: ownPassword, newPassword, passwordAgain: z.string().default('') })
  .refine((form) => form.newPassword === form.passwordAgain, {
    path: ['passwordAgain'],
    error: 'The two passwords differ',
  })

export const exampleForm = z.object({ person: wholeNumber({ from: 1, to: 2_147_483_647 }, 'Choose a person') })

export const personForm = z.object({ key: formKey, name, role, password: newPassword })

export const roleForm = z.object({ seen: role, role })

export const chosenPasswordForm = z
  .object({ password: newPassword, passwordAgain: z.string().default('') })
  .refine((form) => form.password === form.passwordAgain, {
    path: ['passwordAgain'],
    error: 'The two passwords differ',
  })

export const newManagerForm = z
  .object({ name, password: newPassword, passwordAgain: z.string().default('') })
  .refine((form) => form.password === form.passwordAgain, {
    path: ['passwordAgain'],
    error: 'The two passwords differ',
  })

export const setUpForm = z
  .object({
    name,
    password: newPassword,
    passwordAgain: z.string().default(''),
    start: choice(['empty', 'example'], 'Choose how to start'),
    firm: optionalText(lengths.name),
  })
  .refine((form) => form.password === form.passwordAgain, {
    path: ['passwordAgain'],
    error: 'The two passwords differ',
  })
  .refine((form) => form.start === 'example' || form.firm !== '', {
    path: ['firm'],
    error: 'Type the name of your firm',
  })
