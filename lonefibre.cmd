@echo off
rem Starts Lonefibre from a checkout and builds it first when the sources are newer than the last build.
rem   lonefibre COMMAND [options] [files]
rem Needs a JDK of version 17 or later (JAVA_HOME wins over the path) and Maven.
setlocal EnableExtensions DisableDelayedExpansion
set "ROOT=%~dp0"
set "WORK=%ROOT%.build"
set "APP=%ROOT%app\target"
set "MAIN=org.lonefibre.app.Lonefibre"

if defined JAVA_HOME (
  set "JAVA=%JAVA_HOME%\bin\java.exe"
  if not exist "%JAVA_HOME%\bin\javac.exe" goto nojdk
) else (
  set "JAVA=java.exe"
  where /q javac.exe || goto nojdk
)

powershell -NoProfile -ExecutionPolicy Bypass -Command "$s=Join-Path $env:WORK 'stamp'; if (-not (Test-Path -LiteralPath $s)) {exit 1}; $t=(Get-Item -LiteralPath $s).LastWriteTime; Set-Location -LiteralPath $env:ROOT; if (Get-ChildItem -Path pom.xml,*\pom.xml,*\src\main -Recurse -File | Where-Object {$_.LastWriteTime -gt $t} | Select-Object -First 1) {exit 1}" >nul 2>&1
if not errorlevel 1 if exist "%APP%\lonefibre-app.jar" if exist "%APP%\lib" goto run

where /q mvn.cmd || goto nomaven
if not exist "%WORK%" mkdir "%WORK%"
echo lonefibre: building from the sources, the first time takes some minutes ...>&2
rem Dated before the build: what is edited while it runs is built the next time.
type nul >"%WORK%\stamp.new"
pushd "%ROOT%"
call mvn.cmd -q -B -ntp -DskipTests -Dspotless.check.skip=true package >"%WORK%\build.log" 2>&1
if errorlevel 1 (popd & goto failed)
popd
move /y "%WORK%\stamp.new" "%WORK%\stamp" >nul

:run
rem The workbench stays open all day: it begins small and gives back what long work needed.
set "MEMORY="
if "%~1"=="serve" set "MEMORY=-XX:+IgnoreUnrecognizedVMOptions -Xms64m -Xmx512m -XX:MinHeapFreeRatio=10 -XX:MaxHeapFreeRatio=30 -XX:G1PeriodicGCInterval=10000"
"%JAVA%" %MEMORY% %LONEFIBRE_JAVA_OPTS% -Djava.awt.headless=true -cp "%APP%\lonefibre-app.jar;%APP%\lib\*" %MAIN% %*
exit /b %ERRORLEVEL%

:nojdk
echo lonefibre: no JDK found; install a JDK of version 17 or later (a JRE lacks javac)>&2
exit /b 2

:nomaven
echo lonefibre: Maven (mvn) is not on the path; install Maven 3.9 or later to build from the sources>&2
exit /b 2

:failed
echo lonefibre: the build failed; see "%WORK%\build.log">&2
exit /b 1
