import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { methodSite } from './method-site.ts';
import { offline } from './offline.ts';

export default defineConfig({
  plugins: [react(), methodSite(), offline()],
  // Rooms are read from their sources, so that a bundle never holds yesterday's build of one.
  resolve: { conditions: ['source', 'module', 'browser', 'development|production'] },
  worker: { format: 'es' },
  build: {
    target: 'es2023',
    // Pictures and fonts stay files: the content policy allows no data: addresses for fonts.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 1000,
    // The method site takes its seconds; that is no fault to be told of.
    rolldownOptions: { checks: { pluginTimings: false } },
  },
  server: { proxy: { '/api': process.env.FIRNBOOK_SERVER ?? 'http://127.0.0.1:7411' } },
});
