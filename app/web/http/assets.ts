// Serves the style sheet, htmx and the mark. Their paths name their content, so a browser may keep them for ever.
import { Hono } from 'hono'
import { assets } from '../../../views/assets.ts'
import type { Env } from './env.ts'

export const assetRoutes = new Hono<Env>()

for (const { path, type, body } of assets)
  assetRoutes.get(path, (c) =>
    c.body(Uint8Array.from(body), 200, {
      'Content-Type': type,
      'Cache-Control': 'public, max-age=31536000, immutable',
    }),
  )
