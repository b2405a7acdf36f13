import react from '@vitejs/plugin-react';
export default {
  root: import.meta.dirname,
  plugins: [react()],
  resolve: { conditions: ['source', 'module', 'browser', 'development|production'] },
  server: { port: 7499, host: '127.0.0.1', fs: { allow: ['/work/main'] } },
  cacheDir: '/tmp/fb/preview-cache',
};
