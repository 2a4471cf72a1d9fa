/// <reference types="vitest/config" />
// Builds the web workbench into hashed files that the server embeds. Its content security policy
// allows scripts and styles of its own only, so nothing is inlined: no script, style or data URI.
import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';

const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "font-src 'self'",
  "img-src 'self' data: blob:",
  "connect-src 'self'",
  "manifest-src 'self'",
  "worker-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

/** The licences of what the built pages hold stand beside them, as those ask for. */
function licences(): Plugin {
  const file = new URL('package.json', import.meta.url);
  const { dependencies } = JSON.parse(readFileSync(file, 'utf8')) as {
    dependencies: Record<string, string>;
  };
  // What those bring along into the pages.
  const names = [
    ...Object.keys(dependencies),
    'd3-array',
    'd3-path',
    'd3-shape',
    'clsx',
    'esm-env',
  ];
  return {
    name: 'licences',
    apply: 'build',
    generateBundle() {
      const told = [...new Set(names)].sort().map((name) => {
        const folder = new URL(`node_modules/${name}/`, import.meta.url);
        const about = JSON.parse(readFileSync(new URL('package.json', folder), 'utf8')) as {
          version: string;
          license?: string;
        };
        const text = ['LICENSE', 'LICENSE.md', 'license', 'license.md', 'LICENCE']
          .map((n) => new URL(n, folder))
          .find((u) => existsSync(u));
        const head = `${name} ${about.version} (${about.license ?? 'see below'})`;
        return `${head}\n${'-'.repeat(head.length)}\n${text ? readFileSync(text, 'utf8').trim() : ''}\n`;
      });
      this.emitFile({ type: 'asset', fileName: 'licences.txt', source: told.join('\n\n') });
    },
  };
}

/** The browser's keeper of the pages, told the paths of all that was built. */
function pageKeeper(): Plugin {
  const source = new URL('src/shell/page_keeper.js', import.meta.url);
  return {
    name: 'page keeper',
    apply: 'build',
    enforce: 'post',
    generateBundle(_options, bundle) {
      const files = ['/', ...Object.keys(bundle).filter((n) => n.startsWith('assets/'))]
        .map((name) => (name === '/' ? name : `/${name}`))
        .sort();
      const page = bundle['index.html'];
      const text = page?.type === 'asset' ? page.source : '';
      const edition = createHash('sha256')
        .update(files.join())
        .update(text)
        .digest('hex')
        .slice(0, 12);
      const told = `const files = ${JSON.stringify(files)};\nconst edition = '${edition}';\n`;
      const code = told + readFileSync(source, 'utf8');
      this.emitFile({ type: 'asset', fileName: 'page_keeper.js', source: code });
    },
  };
}

const plain = [
  'src/data/{api,entry,event_stream,figures,house_time,measured,outbox,problem,toml_text,units,uuid7}.test.ts',
  'src/parts/{chart_data,shelf_allotment,stream_layout}.test.ts',
  'src/{spirit_run/run_view,jars/shelf_view,mash/mash_view,ferment/ferment_view}.test.ts',
  'src/{reduce/steps,wood/wood_view,bottle/label}.test.ts',
  'src/face/face.test.ts',
];

export default defineConfig({
  plugins: [svelte(), licences(), pageKeeper()],
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    emptyOutDir: true,
  },
  // The built pages are tried under the policy that the server sends (scripts/look.mjs).
  preview: { proxy: {}, headers: { 'Content-Security-Policy': policy } },
  server: { proxy: { '/api': 'http://127.0.0.1:8420' } },
  resolve: process.env['VITEST'] ? { conditions: ['browser'] } : {},
  test: {
    restoreMocks: true,
    testTimeout: 30_000, // a page typed into on a machine that is busy with a build
    projects: [
      {
        // Plain TypeScript: no page is needed, which is much quicker.
        extends: true,
        test: {
          name: 'plain',
          environment: 'node',
          include: plain,
          setupFiles: ['fake-indexeddb/auto'],
        },
      },
      {
        extends: true,
        test: {
          name: 'page',
          environment: 'jsdom',
          include: ['src/**/*.test.ts'],
          exclude: plain,
          setupFiles: ['src/test_setup.ts'],
          isolate: false, // jsdom is made once; each test clears what it leaves (test_setup.ts)
          fileParallelism: false,
        },
      },
    ],
  },
});
