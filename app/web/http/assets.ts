// Serves the style sheet, the type, htmx and the mark. Their paths name their content, so a browser may keep them for ever.
import { brotliCompressSync, constants, gzipSync } from 'node:zlib'
import { Hono } from 'hono'
import { type Asset, assets } from '../../../views/assets.ts'
import { encodingFor } from './compression.ts'
import type { Env } from './env.ts'

export const assetRoutes = new Hono<Env>()

for (const asset of assets) {
  const { path, type } = asset
  const forms = formsOf(asset)
  assetRoutes.get(path, (c) => {
    const encoding = forms.packed && encodingFor(c.req.header('Accept-Encoding'), ['br', 'gzip'] as const)
    const body = encoding && forms.packed ? forms.packed[encoding] : forms.plain
    return c.body(body, 200, {
      'Content-Type': type,
      'Content-Length': String(body.length),
      ...(encoding && { 'Content-Encoding': encoding }),
      'Cache-Control': 'public, max-age=31536000, immutable',
      Vary: 'Accept-Encoding',
    })
  })
}

/** Made once, at the start, and handed out as they are. A font is packed already. */
function formsOf({ body, type }: Asset) {
  const packed = type.startsWith('font/')
    ? undefined
    : {
        gzip: Uint8Array.from(gzipSync(body, { level: constants.Z_BEST_COMPRESSION })),
        br: Uint8Array.from(brotliCompressSync(body)),
      }
  return { plain: Uint8Array.from(body), packed }
}
