// From a web server, the page works without a network after the first visit, where the server has its service
// worker as well.
const keepOffline = () => {
  if (/^https?:$/.test(location.protocol) && navigator.serviceWorker) {
    const manifest = document.querySelector('link[rel=manifest]'), [type] = manifest.href.split(',');
    const its = JSON.parse(decodeURIComponent(manifest.href.slice(type.length + 1)));
    its.start_url = location.origin + location.pathname;  // a data: address has none of its own
    manifest.href = `${type},${encodeURIComponent(JSON.stringify(its))}`;
    navigator.serviceWorker.register('glueup_offline.js', { scope: location.pathname }).catch(() => {});  // not there
  }
};
