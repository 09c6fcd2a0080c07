// The two fields of a new password, the second against slips of the keyboard.

import type { Problems } from '../../app/kit/problems.ts'
import { Field } from '../form.tsx'

type Props = { label?: string; hint: string; problems: Problems | undefined }

export function PasswordTwice({ label = 'New password', hint, problems }: Props) {
  return (
    <>
      <Field
        name="password"
        label={label}
        hint={hint}
        type="password"
        problem={problems?.password}
        autocomplete="new-password"
        required
      />
      <Field
        name="passwordAgain"
        label="The same password again"
        type="password"
        problem={problems?.passwordAgain}
        autocomplete="new-password"
        required
      />
    </>
  )
}
