/** Pages without screens: a room's code in a real browser, read from its sources. */
export default {
  resolve: { conditions: ['source', 'module', 'browser', 'development|production'] },
  build: { target: 'es2023', rolldownOptions: { input: 'store.html' } },
};
