-- Fifty readers of the reading room for a minute, each of whom looks at a page for a while before the next:
--     kaoyi serve --port 15960 &
--     wrk -t1 -c50 -d60s --latency -s tests/bench/readers.lua http://127.0.0.1:15960
-- PAUSE=0 lets them ask without a pause. What is printed is a figure and no test.
local herbs = {
  "bohe", "juhua", "gancao", "fuzi", "renshen", "huangqi", "danggui", "shaoyao", "guizhi", "mahuang", "chaihu", "huangqin",
  "huanglian", "banxia", "chenpi", "fuling", "baishu", "gandihuang", "maimendong", "wuweizi", "xixin", "ganjiang", "shengjiang",
  "dazao", "xingren", "jiegeng", "gegen", "zhimu", "shigao", "dahuang", "houpo", "zhishi", "zexie", "mudanpi", "taoren",
  "chuanqiong", "duzhong", "niuxi", "gouqi", "lianqiao",
}
local words = { "%E9%A0%AD%E7%97%9B", "%E6%B0%B4%E8%85%AB", "%E5%92%B3", "%E7%99%BC%E6%B1%97", "%E5%AE%89%E7%A5%9E" }
local pause = tonumber(os.getenv("PAUSE") or "500")
math.randomseed(7)

local function one(list) return list[math.random(#list)] end

function request()
  local turn = math.random(20)
  local path
  if turn <= 12 then path = "/herb/" .. one(herbs)
  elseif turn <= 14 then path = "/find?q=" .. one(words)
  elseif turn <= 16 then path = "/herb/" .. one(herbs) .. "/against/" .. one(herbs)
  elseif turn <= 18 then path = "/api/suggest?q=" .. string.sub(one(herbs), 1, 3)
  elseif turn == 19 then path = "/pair?herb=" .. one(herbs) .. "&amount=3&herb=" .. one(herbs) .. "&amount=6"
  else path = "/disputes?facet=nature" end
  return wrk.format("GET", path)
end

function delay() return pause == 0 and 0 or math.random(math.floor(pause / 5), math.floor(pause * 1.8)) end
