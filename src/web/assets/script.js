// A little help; every page works without it.
'use strict';
