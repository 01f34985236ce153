" Comments run to the end of a line. A `#` straight before a digit is a number sign.
if exists('b:did_ftplugin')
  finish
endif
let b:did_ftplugin = 1

setlocal comments=:#
setlocal commentstring=#\ %s
setlocal expandtab shiftwidth=4 softtabstop=4
let b:undo_ftplugin = 'setlocal comments< commentstring< expandtab< shiftwidth< softtabstop<'
