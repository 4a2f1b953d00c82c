/** Says every second that a second has passed: a worker is not slowed down with a hidden page. */
setInterval(() => postMessage(null), 1000);
