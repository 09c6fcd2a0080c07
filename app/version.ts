// The program's version, as package.json says it.
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { projectRoot } from './kit/root.ts'

export const { version } = z
  .object({ version: z.string() })
  .parse(JSON.parse(readFileSync(join(projectRoot, 'package.json'), 'utf8')))
